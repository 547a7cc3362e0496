"""Dates as catalogues write them, read by a named convention."""
