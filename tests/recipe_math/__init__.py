"""Recipe math: worked examples, each with its source."""
