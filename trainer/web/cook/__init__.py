"""What a cook does: the rail, steps, quizzes, being watched, their own record."""
