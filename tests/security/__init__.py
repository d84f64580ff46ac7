"""Tests of what nobody can do: run scripts by a name, reach files, speak for another."""
