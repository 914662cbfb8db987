"""Observe: a `Piece` becomes flat tables of facts. Knows trade tables; knows no limit and no severity."""
