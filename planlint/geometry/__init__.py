"""Geometry: vectors, convex solids, contacts, paths. Pure numbers in mm; no names, no spans, no trade."""
