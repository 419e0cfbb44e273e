"""Where a manager writes what the kitchen teaches, over the same files an editor opens."""
