"""Cutting: which boards yield a cut list. Pure numbers in mm: bounds, search, rips."""
