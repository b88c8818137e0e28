"""Whether a drawing still says what the job says: what it measures, and every difference in words."""
