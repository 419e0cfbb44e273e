"""Pages for cooks, assessors and managers."""
