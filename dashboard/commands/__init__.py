"""What the larger commands do."""
