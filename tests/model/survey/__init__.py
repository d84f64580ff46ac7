"""Tests of model.survey, one file for each of its modules."""
