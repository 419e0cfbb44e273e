"""A technique's pages while a person writes it."""
