"""What is handed to people: the wheel, and the pages on how to run it."""
