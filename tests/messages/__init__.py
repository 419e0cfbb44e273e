"""Messages: values until a person reads them, and how they are printed."""
