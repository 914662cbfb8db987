"""Read: the text of a plan becomes a `Plan`. Knows the notation; knows neither geometry nor trade."""
