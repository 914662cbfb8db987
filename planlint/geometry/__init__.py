"""Geometry: vectors, convex solids, contacts and paths. Pure numbers in mm: no names, no spans."""
