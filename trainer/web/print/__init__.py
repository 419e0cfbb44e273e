"""What is printed and hangs on the wall."""
