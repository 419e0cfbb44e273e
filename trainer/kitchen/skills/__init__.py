"""What a cook knows, skill by skill, decided from answers given one at a time on any day."""
