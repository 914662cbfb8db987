"""A shopping list that lacks hardware, plugs of another size, and metal and glue that do not last outdoors."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.screws import OTHER_LENGTH
from planlint.planting.sound import Sound
from planlint.read.plan import FastenerSize, Fastening, Purchase, Quantity, Round
from planlint.source import Span

_BARE = ("plain", "zinc")


@mistake("too little hardware bought", "hardware-short", also=("plug-mismatch",))
def too_few(sound: Sound) -> Iterator[Edit]:
    """One fewer than the joins that are drawn need, counted piece by piece; and half as many."""
    for purchase in sound.plan.purchases:
        needed = _needed(sound, purchase)
        for number in {needed - 1, needed // 2} if needed > 1 else set():
            if number > 0 and purchase.number >= needed:
                answers = (purchase.span, *_users(sound, purchase))
                yield Edit((Change(purchase.number_span, str(number)),), answers)


@mistake("hardware left off the list", "hardware-short", "unknown-name", also=("plug-mismatch",))
def left_off(sound: Sound) -> Iterator[Edit]:
    """A fitting that only the list knew is then a name that nothing answers to."""
    listed = [
        purchase for purchase in sound.plan.purchases if purchase.kind in ("fastener", "hardware", "glue")
    ]
    for purchase in listed if len(listed) > 1 else ():
        users = _users(sound, purchase)
        if users and (
            purchase.kind == "glue" or any(other.kind != "glue" for other in listed if other is not purchase)
        ):
            yield Edit((Change(sound.whole_lines(purchase.span), ""),), tuple(users))


@mistake("plugs of another size than the holes", "plug-mismatch", also=("hardware-short",))
def other_plugs(sound: Sound) -> Iterator[Edit]:
    """Rods and plugs are bought an eighth of an inch thinner or thicker."""
    plugged = [
        (join, f.counterbore.diameter) for join, f in sound.fastenings() if f.plugged and f.counterbore
    ]
    for purchase in sound.plan.purchases:
        size = _plug_size(purchase)
        fitting = [join.span for join, hole in plugged if size is not None and _same(hole.value, size.value)]
        for off in (-25.4 / 8, 25.4 / 8):
            if size is not None and fitting:
                change = Change(size.span, sound.amount(size.value + off, size))
                yield Edit((change,), (purchase.span, *fitting))


@mistake("plain or zinc-plated steel outdoors", "rusting-fastener", also=("hardware-short", *OTHER_LENGTH))
def rusting(sound: Sound) -> Iterator[Edit]:
    for join, fastening in sound.fastenings() if sound.outdoors else ():
        for finish in _BARE if fastening.finish is not None and fastening.finish.text not in _BARE else ():
            assert fastening.finish is not None, "it was asked above"
            yield Edit((Change(fastening.finish.span, finish),), (join.span,))


@mistake(
    "glue outdoors that is not waterproof", "indoor-glue-outdoors", also=("hardware-short", *OTHER_LENGTH)
)
def indoor_glue(sound: Sound) -> Iterator[Edit]:
    for join, fastening in sound.fastenings() if sound.outdoors else ():
        if fastening.kind == "glue" and fastening.waterproof:
            yield Edit((_without_waterproof(sound, fastening.span),), (join.span,))


@mistake("glue of the whole plan that is not waterproof", "indoor-glue-outdoors", also=("hardware-short",))
def all_indoor_glue(sound: Sound) -> Iterator[Edit]:
    glued = [join for join, fastening in sound.fastenings() if fastening.kind == "glue"]
    spans = [
        fastening.span
        for _, fastening in sound.fastenings()
        if fastening.kind == "glue" and fastening.waterproof
    ]
    spans += [purchase.span for purchase in sound.plan.purchases if purchase.waterproof]
    if sound.outdoors and glued and spans:
        changes = tuple(_without_waterproof(sound, span) for span in spans)
        yield Edit(changes, tuple(join.span for join in glued))


# --- sums --------------------------------------------------------------------------------------------------


def _plug_size(purchase: Purchase) -> Quantity | None:
    """The diameter of bought plugs, or of a rod that they can be cut from."""
    if isinstance(purchase.stock, Round):
        return purchase.stock.diameter if purchase.kind == "rod" else None
    return (
        purchase.size.length if purchase.size is not None and purchase.noun.text.startswith("plug") else None
    )


def _users(sound: Sound, purchase: Purchase) -> list[Span]:
    """The join lines that use what this line buys, and nothing else that is bought could do."""
    alike = [other for other in sound.plan.purchases if _like(sound, other, purchase)]
    if len(alike) > 1:
        return []
    if purchase.kind == "glue":
        return [join.span for join, fastening in sound.fastenings() if fastening.kind == "glue"]
    return [join.span for join, fastening in sound.fastenings() if _uses(fastening, purchase)]


def _like(sound: Sound, one: Purchase, other: Purchase) -> bool:
    return one.noun.text == other.noun.text and (
        one.size is None or other.size is None or _sizes(one.size, other.size)
    )


def _uses(fastening: Fastening, purchase: Purchase) -> bool:
    if fastening.kind != "counted" or fastening.noun.text.rstrip("s") != purchase.noun.text.rstrip("s"):
        return False
    return purchase.size is None or fastening.size is None or _sizes(fastening.size, purchase.size)


def _sizes(one: FastenerSize, other: FastenerSize) -> bool:
    same_length = one.length is None or other.length is None or _same(one.length.value, other.length.value)
    same_across = (
        one.diameter is None or other.diameter is None or _same(one.diameter.value, other.diameter.value)
    )
    return one.gauge == other.gauge and same_length and same_across


def _needed(sound: Sound, purchase: Purchase) -> int:
    """How many of a line's pieces the joins use, each pair of pieces counted."""
    if purchase.kind not in ("fastener", "hardware") or len(_users(sound, purchase)) == 0:
        return 0
    total = 0
    for join, fastening in sound.fastenings():
        if _uses(fastening, purchase):
            pairs = {(m.first.order, m.second.order) for m in sound.meetings(join)}
            total += fastening.number * len(pairs)
    return total


def _without_waterproof(sound: Sound, span: Span) -> Change:
    at = span.start + sound.words(span).index("waterproof")
    return Change(Span(at - 1, at + len("waterproof")), "")


def _same(one: float, other: float) -> bool:
    return abs(one - other) < 0.05
