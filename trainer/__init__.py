"""Teach a kitchen's standard, check it, keep the record, and say who is cleared for each station."""
