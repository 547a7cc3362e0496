"""What one cell says: a length, a date, a count, a term, each with its precision or its doubt.

Pure text in, value out. Nothing here knows of files, sheets or tables.
"""
