"""Windows in, display lists out: one file a kind of view."""
