"""A research notebook kit for button history."""

__version__ = "0.1.0"
