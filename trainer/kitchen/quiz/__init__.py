"""Calculation quizzes: families of questions, drawing them, grading answers."""
