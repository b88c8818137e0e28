"""Which pieces come out of which stock bar: fewest new bars, off-cuts first, and whether fewer are possible."""
