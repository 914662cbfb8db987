"""Drawing: the piece as SVG, made from its solids."""
