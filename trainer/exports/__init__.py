"""Records written out for somebody else to read; nothing here changes anything."""
