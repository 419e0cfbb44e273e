"""What somebody takes along: tables and workbooks, and calendars under an address of one's own."""
