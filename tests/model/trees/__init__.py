"""Tests of model.trees, one file for each of its modules."""
