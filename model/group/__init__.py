"""What several groups' weights agree on, and whether their disagreement matters."""
