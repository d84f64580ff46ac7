"""Invented sites that ship with the project, complete and documented as invented."""
