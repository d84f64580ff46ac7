"""The planting calendar: what to do when, by hemisphere and the site's own weather."""
