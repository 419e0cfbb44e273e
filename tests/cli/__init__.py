"""The command line, run the way a shell runs it."""
