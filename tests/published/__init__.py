"""Checks against standards and handbooks: rows of data, each worked out by the product."""
