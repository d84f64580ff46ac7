"""Which trees of an order go where, and what planting them takes."""
