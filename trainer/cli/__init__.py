"""The command line: one click command a thing to do; it prints and decides nothing."""
