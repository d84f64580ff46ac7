"""The vote: a light page for phones, which asks nothing but plain HTML of them."""
