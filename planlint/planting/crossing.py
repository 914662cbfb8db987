"""Fastenings in each other's way, behind a part that is already there, or in view."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.build.piece import Driven, Part
from planlint.geometry.vector import Vec, cross, dot, sub
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.screws import OTHER_LENGTH
from planlint.planting.sound import SIDES, WAY, Sound, side_of
from planlint.read.plan import Fastening, Join, Step
from planlint.source import Span
from planlint.trade.screws import kind

_INCH = 25.4


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


@mistake(
    "screws that are driven after their way is shut", "no-driver-room", also=(*OTHER_SIZE, "cannot-go-in")
)
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
        if turned and any(
            side in seen and _in_the_open(sound, one, side) for side, one in zip(open_to, driven, strict=True)
        ):
            yield Edit((Change(fastening.from_.span, turned),), (join.span,))


@mistake("counterbores left without their plugs", "hole-in-view", also=("plug-mismatch", "hardware-short"))
def no_plugs(sound: Sound) -> Iterator[Edit]:
    seen = _seen(sound)
    for join, fastening in sound.fastenings():
        mouths = [(one, side_of(one.mouth)) for one in sound.driven(fastening)]
        if fastening.plugged and any(side in seen and _in_the_open(sound, one, side) for one, side in mouths):
            start = fastening.plugged.start - 1
            yield Edit((Change(Span(start, fastening.plugged.end), ""),), (join.span,))


@mistake("plugs cut from a rod, in view", "end-grain-in-view", also=("plug-mismatch", "hardware-short"))
def plugs_from_a_rod(sound: Sound) -> Iterator[Edit]:
    """A rod's end grain drinks the finish and stays dark; plugs cut across the grain do not."""
    seen = _seen(sound)
    plugged = [(join, f) for join, f in sound.fastenings() if f.plugged is not None and not sound.outdoors]
    answers = [join.span for join, f in plugged if _any_in_the_open(sound, f, seen)]
    for purchase in sound.plan.purchases:
        if answers and purchase.noun.text.startswith("plug") and purchase.size is not None:
            rod = f"2 of dowel-rod {sound.words(purchase.size.span)} @ {sound.length(36 * _INCH)} oak"
            yield Edit((Change(purchase.span, rod),), tuple(answers))


@mistake(
    "a piece with rod plugs brought indoors",
    "end-grain-in-view",
    also=("wet-wood-indoors", "top-cannot-move"),
)
def rods_indoors(sound: Sound) -> Iterator[Edit]:
    setting, seen = sound.plan.heading.setting, _seen(sound)
    rods = [purchase for purchase in sound.plan.purchases if purchase.kind == "rod"]
    answers = [join.span for join, f in sound.fastenings() if f.plugged and _any_in_the_open(sound, f, seen)]
    if setting is not None and sound.outdoors and rods and answers:
        yield Edit((Change(setting.span, "indoors"),), tuple(answers))


def _moved_onto(sound: Sound, one: Driven, other: Driven) -> Change | None:
    """The place of a row's first fastener changed so that its axis meets the other's inside a part both pass."""
    spots = one.fastening.spots
    if spots is None or spots.side == "each end" or one.tip is None or other.tip is None:
        return None
    common = {p.part.order for p in one.passages} & {p.part.order for p in other.passages}
    between = cross(one.axis, other.axis)
    way = WAY[spots.side]
    if not common or abs(dot(between, way)) < 0.99 or one.pocket_side or other.pocket_side:
        return None
    apart = sub(other.entry, one.entry)
    along_one, along_other = dot(apart, one.axis), -dot(apart, other.axis)
    if not (_INCH / 4 < along_one < one.tip - 3 and 0 < along_other < other.tip - 3):
        return None
    places = sorted(spots.distances, key=lambda each: each.value)
    mine = min(places, key=lambda each: abs(each.value - _fromside_of(one, way)))
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
    side = side_of(between)
    if not common or abs(dot(between, WAY[side])) < 0.99 or one.pocket_side or other.pocket_side:
        return None
    far = _fromside_of(one, WAY[side])
    wanted = far - dot(apart, WAY[side])
    room = far + _fromside_of(one, WAY[_opposite(side)])
    inside = _INCH / 4 < dot(apart, one.axis) < one.tip - 3 and 8 < wanted < room - 8
    crossed = 20 < -dot(apart, other.axis) < other.tip - 20
    if not inside or not crossed or kind(fastening.noun.text) is None:
        return None
    end = fastening.span.end
    return Change(Span(end, end), f" at {sound.length(wanted)} from {side}")


def _fromside_of(driven: Driven, way: Vec) -> float:
    """How far its place is from that side of the area where the two parts meet."""
    return max(dot(sub(corner, driven.spot), way) for corner in driven.patch.outline)


def _shut(sound: Sound, join: Join, later: list[Step]) -> bool:
    """Whether a part first joined in a later step lies across the line out from a straight screw's head, near it."""
    present = {
        part.order for step in sound.plan.steps if step not in later for part in _joined_in(sound, step)
    }
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


def _any_in_the_open(sound: Sound, fastening: Fastening, seen: set[str]) -> bool:
    mouths = [(one, side_of(one.mouth)) for one in sound.driven(fastening)]
    return any(side in seen and _in_the_open(sound, one, side) for one, side in mouths)


def _in_the_open(sound: Sound, driven: Driven, side: str) -> bool:
    """Whether nothing of the piece stands before the first part's face on that side, at the mouth."""
    way = WAY[side]
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


def _opposite(side: str) -> str:
    pair = next((pair for pair in SIDES.values() if side in pair), None)
    return "" if pair is None else pair[1 - pair.index(side)]
