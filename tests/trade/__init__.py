"""Tests of the trade tables and their look-ups."""
