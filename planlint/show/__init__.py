"""Show: findings become text for a reader."""
