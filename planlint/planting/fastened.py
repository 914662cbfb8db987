"""Fastenings that are in each other's way, hold too little, or are seen."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.build.piece import Driven, Meeting, Part
from planlint.geometry.vector import Vec, cross, dot, sub
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.screws import OTHER_LENGTH
from planlint.planting.sound import Sound
from planlint.read.plan import Join, Step
from planlint.source import Span
from planlint.trade.screws import diameter, kind

_INCH = 25.4
_SIDES = {0: ("left", "right"), 1: ("front", "back"), 2: ("bottom", "top")}
_WAY: dict[str, Vec] = {
    "left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0), "back": (0, 1, 0), "bottom": (0, 0, -1), "top": (0, 0, 1),
}  # fmt: skip
_LESS_HELD = (
    "end-grain-only", "glue-end-grain", "one-fastener-pivots", "hardware-short", "joint-overloaded", "racks-sideways",
    "wet-wood-indoors", "top-cannot-move", "boards-to-spare", "no-pilot", "screw-light-for-load", "tips-over",
    "plug-mismatch", "too-near-edge", "fasteners-collide", "loose-part", "no-driver-room", "screw-embedment",
)  # fmt: skip


@mistake("screws from two faces at one height", "fasteners-collide", also=(*OTHER_LENGTH, "too-near-edge"))
def same_height(sound: Sound) -> Iterator[Edit]:
    """A row that is placed is moved to where another fastener crosses it."""
    told: set[tuple[Span, Span]] = set()
    for one in sound.piece.driven:
        for other in sound.piece.driven:
            key = (one.fastening.span, other.fastening.span)
            change = None if key in told or key[0] == key[1] else _moved_onto(sound, one, other)
            change = change or (None if key in told or key[0] == key[1] else _placed_onto(sound, one, other))
            if change is not None:
                told.add(key)
                yield Edit((change,), (one.join.span, other.join.span))


@mistake("screws in end grain without their glue", "end-grain-only", also=_LESS_HELD)
def no_glue_in_end_grain(sound: Sound) -> Iterator[Edit]:
    """Nothing else holds or carries: the joint is a plain butt, and the parts meet at the end alone."""
    for join, fastening in sound.fastenings():
        found = kind(fastening.noun.text)
        glue = next((one for one in join.fastenings if one.kind == "glue"), None)
        if found is None or not found.threaded or found.pocketed or glue is None or len(join.fastenings) != 2:
            continue
        driven = sound.driven(fastening)
        if driven and all(_in_end_grain(one) and not _carried(sound, one) and _reach(one) < 8 for one in driven):
            yield Edit((Change(_with_and(sound, glue.span), ""),), (join.span,))


@mistake("short screws in end grain", "end-grain-only", "screw-light-for-load", also=OTHER_LENGTH)
def short_in_end_grain(sound: Sound) -> Iterator[Edit]:
    """Seven diameters, where end grain wants ten."""
    for join, fastening in sound.fastenings():
        found = kind(fastening.noun.text)
        driven = sound.driven(fastening)
        alone = found is not None and found.what == "screw" and not found.pocketed and len(join.fastenings) == 1
        if not alone or not driven or fastening.size is None or fastening.size.length is None:
            continue
        if all(_in_end_grain(one) and not _carried(sound, one) and _reach(one) > 8 for one in driven):
            old = fastening.size.length
            less = old.value - max(_reach(one) - 7 for one in driven) * _across(driven[0])
            yield Edit((Change(old.span, sound.amount(less, old)),), (join.span,))


@mistake("glue alone on end grain", "glue-end-grain", also=_LESS_HELD)
def glue_alone(sound: Sound) -> Iterator[Edit]:
    """What stands beside the glue is left out."""
    for join in sound.joins():
        glue = next((one for one in join.fastenings if one.kind == "glue"), None)
        others = [one for one in join.fastenings if one.kind != "glue"]
        meetings = sound.meetings(join)
        butt = all(one.kind == "counted" for one in others) and all(m.share is None for m in meetings)
        once = all(_lines_between(sound, m) == 1 for m in meetings)
        if glue and others and meetings and butt and once and all(_end_meets(m) for m in meetings):
            start = join.fastenings[0].span.start
            yield Edit((Change(Span(start, join.span.end), sound.words(glue.span)),), (join.span,))


@mistake("one screw where two kept a part from turning", "one-fastener-pivots", also=_LESS_HELD)
def one_screw(sound: Sound) -> Iterator[Edit]:
    """All that holds the part is this join with one other part, and nothing stops it from turning."""
    for join, fastening in sound.fastenings():
        alone = fastening.kind == "counted" and len(join.fastenings) == 1 and fastening.number > 1
        if not alone or fastening.number_span is None or not sound.driven(fastening):
            continue
        parts = [part for part in sound.piece.parts if _held_only_by(sound, part, join)]
        if parts and not any(part.stock.diameter for part in parts):
            changes = [Change(fastening.number_span, "1")]
            if fastening.spots is not None and len(fastening.spots.distances) > 1:
                first, last = fastening.spots.distances[0], fastening.spots.distances[-1]
                changes.append(Change(Span(first.span.start, last.span.end), sound.words(first.span) + _unit(sound, last.span)))
            yield Edit(tuple(changes), (join.span, *{part.span for part in parts}))


@mistake("screws that are driven after their way is shut", "no-driver-room", also=(*OTHER_SIZE, "cannot-go-in"))
def too_late(sound: Sound) -> Iterator[Edit]:
    """A step is put last, when a part of a later step lies right over its screws' heads."""
    steps = sound.plan.steps
    for index, step in enumerate(steps[:-1]):
        blocked = [join.span for join in step.joins if _shut(sound, join, steps[index + 1 :])]
        if blocked and step.assembly is None:
            block, end = _block(sound, step), _block(sound, steps[-1]).end
            text = sound.words(block)
            yield Edit((Change(block, ""), Change(Span(end, end), text)), (Span(end, end),))


@mistake("pockets turned outward", "hole-in-view", also=(*OTHER_LENGTH, "no-driver-room"))
def pockets_outward(sound: Sound) -> Iterator[Edit]:
    """From the face that people look at, with nothing before it."""
    seen = _seen(sound)
    for join, fastening in sound.fastenings():
        driven = [one for one in sound.driven(fastening) if one.pocket_side is not None]
        if not driven or fastening.from_ is None:
            continue
        turned = {"inside": "outside", "back": "front", "bottom": "top"}.get(fastening.from_.text)
        open_to = [_opposite(one.pocket_side or "") for one in driven]
        if turned and any(side in seen and _in_the_open(sound, one, side) for side, one in zip(open_to, driven, strict=True)):
            yield Edit((Change(fastening.from_.span, turned),), (join.span,))


@mistake("counterbores left without their plugs", "hole-in-view", also=("plug-mismatch", "hardware-short"))
def no_plugs(sound: Sound) -> Iterator[Edit]:
    seen = _seen(sound)
    for join, fastening in sound.fastenings():
        mouths = [(one, _side(one.mouth)) for one in sound.driven(fastening)]
        if fastening.plugged and any(side in seen and _in_the_open(sound, one, side) for one, side in mouths):
            start = fastening.plugged.start - 1
            yield Edit((Change(Span(start, fastening.plugged.end), ""),), (join.span,))


# --- sums --------------------------------------------------------------------------------------------------


def _moved_onto(sound: Sound, one: Driven, other: Driven) -> Change | None:
    """The place of a row's first fastener changed so that its axis meets the other's inside a part both pass."""
    spots = one.fastening.spots
    if spots is None or spots.side == "each end" or one.tip is None or other.tip is None:
        return None
    common = {p.part.order for p in one.passages} & {p.part.order for p in other.passages}
    between = cross(one.axis, other.axis)
    way = _WAY[spots.side]
    if not common or abs(dot(between, way)) < 0.99 or one.pocket_side or other.pocket_side:
        return None
    apart = sub(other.entry, one.entry)
    along_one, along_other = dot(apart, one.axis), -dot(apart, other.axis)
    if not (_INCH / 4 < along_one < one.tip - 3 and 0 < along_other < other.tip - 3):
        return None
    places = sorted(spots.distances, key=lambda each: each.value)
    mine = min(places, key=lambda each: abs(each.value - _from_side(one, way)))
    wanted = mine.value - dot(apart, way)
    others = [each.value for each in places if each is not mine]
    if wanted < 8 or wanted > places[-1].value + 15 or any(abs(wanted - each) < 12 for each in others):
        return None
    return Change(mine.span, sound.amount(wanted, mine)) if abs(mine.value - wanted) > 1 else None


def _placed_onto(sound: Sound, one: Driven, other: Driven) -> Change | None:
    """A place said for a lone fastener, or for a pair, that had none: the height at which the other crosses it."""
    fastening = one.fastening
    if fastening.spots is not None or one.tip is None or other.tip is None or fastening.number > 4:
        return None
    common = {p.part.order for p in one.passages} & {p.part.order for p in other.passages}
    apart, between = sub(other.entry, one.entry), cross(one.axis, other.axis)
    side = _side(between)
    if not common or abs(dot(between, _WAY[side])) < 0.99 or one.pocket_side or other.pocket_side:
        return None
    far = _from_side(one, _WAY[side])
    wanted = far - dot(apart, _WAY[side])
    room = far + _from_side(one, _WAY[_opposite(side)])
    inside = _INCH / 4 < dot(apart, one.axis) < one.tip - 3 and 8 < wanted < room - 8
    crossed = 20 < -dot(apart, other.axis) < other.tip - 20
    if not inside or not crossed or kind(fastening.noun.text) is None:
        return None
    end = fastening.span.end
    return Change(Span(end, end), f" at {sound.length(wanted)} from {side}")


def _from_side(driven: Driven, way: Vec) -> float:
    """How far its place is from that side of the area where the two parts meet."""
    return max(dot(sub(corner, driven.spot), way) for corner in driven.patch.outline)


def _in_end_grain(driven: Driven) -> bool:
    into = driven.into
    return not into.stock.sheet and not into.stock.diameter and abs(dot(driven.axis, into.grain)) > 0.95


def _carried(sound: Sound, driven: Driven) -> bool:
    """Whether the part that is screwed at its end lies on a part other than the first, or on the floor."""
    part = driven.into
    for first, second, patches in sound.piece.contacts:
        if part in (first, second) and driven.first not in (first, second):
            down = 1.0 if part is first else -1.0
            if any(down * patch.normal[2] < -0.9 for patch in patches):
                return True
    return part.solid.low[2] < 0.1 or abs(driven.axis[2]) > 0.5


def _across(driven: Driven) -> float:
    size = driven.fastening.size
    if size is not None and size.gauge is not None:
        return diameter(size.gauge) or 1.0
    return size.diameter.value if size is not None and size.diameter else 1.0


def _reach(driven: Driven) -> float:
    """How many diameters of it lie in the part it holds in."""
    into = next((passage for passage in driven.passages if passage.part is driven.into), None)
    if into is None or driven.tip is None:
        return 0.0
    return (min(driven.tip, into.leave) - into.enter) / _across(driven)


def _end_meets(meeting: Meeting) -> bool:
    for part in (meeting.first, meeting.second):
        ends = [patch for patch in meeting.patches if abs(dot(patch.normal, part.grain)) > 0.95]
        if not part.stock.sheet and len(ends) == len(meeting.patches) > 0:
            return True
    return False


def _lines_between(sound: Sound, meeting: Meeting) -> int:
    pair = {meeting.first.order, meeting.second.order}
    return sum({m.first.order, m.second.order} == pair for m in sound.piece.meetings)


def _held_only_by(sound: Sound, part: Part, join: Join) -> bool:
    """Whether this join holds the part to one other, and the two lie flat on each other, with no side against a third."""
    own = [m for m in sound.piece.meetings if part in (m.first, m.second)]
    axes = [one.axis for one in sound.piece.driven if part in (one.first, one.second)]
    flat = all(
        abs(dot(patch.normal, axes[0])) > 0.99
        for first, second, patches in sound.piece.contacts
        if axes and part in (first, second)
        for patch in patches
    )
    return len(own) == 1 and own[0].join.span == join.span and own[0].share is None and bool(axes) and flat


def _shut(sound: Sound, join: Join, later: list[Step]) -> bool:
    """Whether a part first joined in a later step lies across the line out from a straight screw's head, near it."""
    present = {part.order for step in sound.plan.steps if step not in later for part in _joined_in(sound, step)}
    coming = [part for step in later for part in _joined_in(sound, step) if part.order not in present]
    for one in sound.piece.driven:
        found = kind(one.fastening.noun.text)
        if one.join.span != join.span or found is None or found.what != "screw" or one.pocket_side:
            continue
        for part in coming:
            if any(_lies_on(part, one, out) for out in (1.0, 20.0)):
                return True
    return False


def _joined_in(sound: Sound, step: Step) -> list[Part]:
    spans = {join.span for join in step.joins}
    return [part for m in sound.piece.meetings if m.join.span in spans for part in (m.first, m.second)]


def _lies_on(part: Part, driven: Driven, out: float) -> bool:
    point = [driven.entry[i] - driven.axis[i] * out for i in range(3)]
    solid = part.solid
    return solid.aligned and all(solid.low[i] - 5 < point[i] < solid.high[i] + 5 for i in range(3))


def _block(sound: Sound, step: Step) -> Span:
    """The lines of a step, its heading to its last join."""
    ends = [step.span.end, *(join.span.end for join in step.joins)]
    return sound.whole_lines(Span(step.span.start, max(ends)))


def _seen(sound: Sound) -> set[str]:
    seen = sound.plan.heading.seen
    return {word.text for word in seen} if seen else {"left", "right", "front", "top"}


def _in_the_open(sound: Sound, driven: Driven, side: str) -> bool:
    """Whether nothing of the piece stands before the first part's face on that side, at the mouth."""
    way = _WAY[side]
    axis = next(i for i in range(3) if way[i])
    first = driven.first.solid
    face = first.high[axis] if way[axis] > 0 else first.low[axis]
    for part in sound.piece.parts:
        solid = part.solid
        beyond = solid.high[axis] > face + 1 if way[axis] > 0 else solid.low[axis] < face - 1
        near = all(solid.low[i] - 60 < driven.entry[i] < solid.high[i] + 60 for i in range(3) if i != axis)
        if part is not driven.first and beyond and near:
            return False
    return True


def _side(way: Vec) -> str:
    return max(_WAY, key=lambda side: dot(_WAY[side], way))


def _opposite(side: str) -> str:
    pair = next((pair for pair in _SIDES.values() if side in pair), None)
    return "" if pair is None else pair[1 - pair.index(side)]


def _with_and(sound: Sound, span: Span) -> Span:
    """A fastening with the `and` that joins it to what stands before it."""
    before = sound.text[: span.start].rstrip()
    return Span(len(before) - 3 if before.endswith("and") else span.start, span.end)


def _unit(sound: Sound, span: Span) -> str:
    """The unit behind the last number of a list."""
    words = sound.words(span).split()
    return f" {words[-1]}" if words and words[-1].isalpha() else ""


