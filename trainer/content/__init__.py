"""What the kitchen teaches, read from plain files, with every problem in them at once."""
