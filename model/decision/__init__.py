"""Weighing and ranking: pure functions on arrays, without any horticulture."""
