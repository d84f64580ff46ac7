"""The model of a planting decision: survey, trees, land, factors, decision. It draws nothing."""
