"""Lengths as practitioners write them: units, fractions, layouts, faces and precision."""
