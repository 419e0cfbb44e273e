"""Records written out for another person to read; nothing here changes anything."""
