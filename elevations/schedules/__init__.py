"""Windows in, rows out: one file a schedule."""
