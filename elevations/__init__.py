"""elevations: manufacturing drawings, schedules and fixing positions for windows, from one YAML job file."""

__version__ = "0.1.0"
