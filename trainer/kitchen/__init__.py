"""The kitchen's rules, pure: technique, quiz, practical, progress, clearance."""
