"""Survey folders opened, what a visitor changed in them, and how that is kept."""
