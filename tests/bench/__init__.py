"""Tables of speed; never a pass or fail by time."""
