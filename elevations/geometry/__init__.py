"""A validated job in, resolved windows out."""
