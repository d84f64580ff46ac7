"""Who comes, and in whose turn."""
