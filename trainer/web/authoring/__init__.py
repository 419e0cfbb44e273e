"""A technique's pages while somebody writes it."""
