"""What a kitchen says in plain HTTP where its pages come over HTTPS: how a phone learns to trust it."""
