"""A year on: what was seen against what was expected, and keep or move."""
