"""Placing as a mixed integer programme: arrays in, the proven best out; no trees, no site."""
