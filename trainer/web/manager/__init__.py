"""What a manager does: the board, people, rights, roster, devices, the record book."""
