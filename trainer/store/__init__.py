"""Where things are kept: the record book, people and their secrets, content files, roster files."""
