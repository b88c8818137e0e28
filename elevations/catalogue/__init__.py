"""Profile systems: built-in demonstration data and the user's own files."""
