"""The vote: its store, its tables, rows and faults."""
