"""Tidying: the plan's text in one plain layout, its meaning unchanged."""
