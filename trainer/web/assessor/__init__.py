"""What an assessor does: watch a practical, sign it, note a supervised shift."""
