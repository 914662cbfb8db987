"""The printed sheet: audit, drawings, lists and steps on one page."""
