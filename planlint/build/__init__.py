"""Build: a `Plan` becomes a `Piece` in space. Knows geometry; does not know what is good or bad."""
