"""Where two fasteners come nearest to each other."""

from __future__ import annotations

from planlint.geometry.vector import Vec, add, dot, length, scale, sub

_PARALLEL = 1e-6  # sin²
_TIE = 1e-6  # mm

Segment = tuple[Vec, Vec]


def nearest(one: Segment, other: Segment) -> Segment:
    """The points of either segment at which they are nearest; the middle of them where they run side by side (mm)."""
    pairs = [(end, _on(other, end)) for end in one] + [(_on(one, end), end) for end in other]
    crossing = _between_ends(one, other)
    if crossing is not None:
        pairs.append(crossing)
    least = min([length(sub(second, first)) for first, second in pairs])
    best = [pair for pair in pairs if length(sub(pair[1], pair[0])) < least + _TIE]
    return _middle([first for first, _ in best]), _middle([second for _, second in best])


def _on(segment: Segment, point: Vec) -> Vec:
    """The point of a segment that is nearest to another point."""
    start, way = segment[0], sub(segment[1], segment[0])
    square = dot(way, way)
    return (
        add(start, scale(way, min(1.0, max(0.0, dot(sub(point, start), way) / square)))) if square else start
    )


def _between_ends(one: Segment, other: Segment) -> Segment | None:
    """Where the lines come nearest, if that is within both segments; None where they are parallel."""
    u, v, w = sub(one[1], one[0]), sub(other[1], other[0]), sub(one[0], other[0])
    a, b, c, d, e = dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)
    lean = a * c - b * b
    if lean <= _PARALLEL * a * c:
        return None
    s, t = (b * e - c * d) / lean, (a * e - b * d) / lean
    if not (0.0 <= s <= 1.0 and 0.0 <= t <= 1.0):
        return None
    return add(one[0], scale(u, s)), add(other[0], scale(v, t))


def _middle(points: list[Vec]) -> Vec:
    x, y, z = (sum([point[axis] for point in points]) / len(points) for axis in range(3))
    return x, y, z
