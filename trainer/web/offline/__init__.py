"""Without network: which pages a phone keeps, and what is sent later from it."""
