"""What was measured: the site, its features, and the reading and writing of them."""
