"""Rules that hold for every input, tried with made-up ones."""
