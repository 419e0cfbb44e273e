"""One module a question family or close group."""
