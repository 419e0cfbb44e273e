"""The house itself: floors, documents, names."""
