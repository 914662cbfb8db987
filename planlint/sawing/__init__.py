"""Sawing: which piece comes from which board, in the order to cut."""
