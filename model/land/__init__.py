"""The physics of the land: pure functions on arrays, without site, tree or setting."""
