"""What the kitchen hands to somebody else: tables for spreadsheets and calendars, made from what the actions tell."""
