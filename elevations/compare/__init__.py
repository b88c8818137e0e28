"""Two states of a job: what changed, in terms of the product, and a drawing with clouds round it."""
