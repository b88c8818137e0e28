"""Commands of the command line, one file each, holding a click command called `command`; `cli` registers them."""
