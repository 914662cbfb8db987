"""Buying: what the plan needs from the yard and the shop, beside what its own list says."""
