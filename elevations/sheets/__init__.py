"""Views in, pages out: one file a reader of the drawing."""
