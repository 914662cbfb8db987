"""Space that two parts both fill, beside what the joint between them allows."""

from __future__ import annotations

from planlint.build.joinery.joints import Joint, drawn_depth, stated_depth
from planlint.build.joinery.touching import Touch
from planlint.build.piece import Overlap, Part
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, dot, scale

_HEAD_ON = 0.5  # cos of 60 deg: an end that meets a face more aslant than this does not stand on it


def unexplained(touch: Touch, fit: float) -> Overlap | None:
    """Shared space without a joint; None when there is none of it."""
    if touch.space is None or touch.depth <= EXACT:
        return None
    digs = square_end(touch, fit)
    return Overlap(touch.first, touch.second, touch.space, touch.depth, touch.push, None, None, 0.0, digs)


def of_joint(joint: Joint, touch: Touch) -> Overlap:
    """The space a joint takes as it is drawn, with the depth that the plan states."""
    return Overlap(
        joint.first,
        joint.second,
        touch.space,
        drawn_depth(joint, touch),
        touch.push,
        joint.join,
        joint.fastening,
        stated_depth(joint.fastening),
        None,
    )


def square_end(touch: Touch, fit: float) -> Part | None:
    """The part whose square end digs into the other with one edge, because it stands aslant to that face."""
    for part, out in ((touch.first, scale(touch.push, -1.0)), (touch.second, touch.push)):
        if _edge_only(part, out, touch.depth, fit):
            return part
    return None


def _edge_only(part: Part, out: Vec, depth: float, fit: float) -> bool:
    towards = dot(part.along, out)
    if abs(towards) < _HEAD_ON:
        return False
    end_way = part.along if towards < 0.0 else scale(part.along, -1.0)
    _, most = extent(part.solid, end_way)
    heights = [dot(p, out) for p in part.solid.vertices if dot(p, end_way) > most - EXACT]
    if len(heights) < 3:
        return False  # this end is cut aslant already
    rise = max(heights) - min(heights)
    return rise > EXACT and rise >= depth - fit
