"""Mending: the computed mends made in the plan's text, and audited again before one is kept."""
