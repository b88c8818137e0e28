"""The neutral display list: what views write and writers read. It knows nothing of windows or of file formats."""
