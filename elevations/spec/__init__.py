"""YAML text in, a validated job out: what was asked, and where in the file each part of it stands."""
