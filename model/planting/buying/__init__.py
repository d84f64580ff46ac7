"""What a plan asks to be bought, what it costs, and why."""
