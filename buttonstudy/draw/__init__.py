"""Figures made from the study's tables, each with its caption and alternative text."""
