"""Whole plans and what the audit must say of them."""
