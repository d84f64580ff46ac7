"""The catalogue shipped with the package, read once for the tests."""

from model.trees import read_catalogue

CATALOGUE = read_catalogue()
