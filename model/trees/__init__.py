"""What can be planted: the catalogue, with the source of every value, and growth."""
