"""The cross-section of one button: from what its record says to shapes on paper.

The steps stand apart: facts (what the record says), anatomy (every size that the drawing needs,
with what had to be assumed and where the record contradicts itself), pieces (outlines in
millimetres), and painting (hatches, dimensions, callouts).
"""
