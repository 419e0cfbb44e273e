"""Files that come from elsewhere: roster and shifts as tables, dates as people write them."""
