"""Tests of question families, drawing, grading and sittings."""
