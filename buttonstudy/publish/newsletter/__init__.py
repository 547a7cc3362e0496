"""The newsletter pack: figures for print and a short article about a survey, ready to be edited.

A society's editor gets each figure in the forms that printers ask for, the article as a Word
document and as plain text, and a typeset proof. Nothing is computed here that the other parts do
not compute: their figures and sentences are put together, with how they were got, who recorded the
buttons, and how to cite them.
"""
