"""Files that come from elsewhere: rosters, shifts, tables and dates."""
