"""What a plan costs in walking and watering."""
