"""Tests of the cutting layout."""
