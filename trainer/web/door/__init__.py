"""Who is at the device: the first page, enrolling, the secret, the language."""
