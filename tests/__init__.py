"""Tests; the folders mirror planlint."""
