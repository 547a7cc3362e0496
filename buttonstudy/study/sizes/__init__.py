"""Sizes as intervals: their distribution, their precision, and the steps they fall on."""
