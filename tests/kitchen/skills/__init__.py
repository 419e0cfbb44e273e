"""Tests of knowledge, skill by skill."""
