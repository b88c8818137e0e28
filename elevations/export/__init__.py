"""Pages in, files out: one file a format."""
