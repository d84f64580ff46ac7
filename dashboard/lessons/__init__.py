"""Five lessons as notebooks, each for forty minutes of teaching, and the few pieces they share."""
