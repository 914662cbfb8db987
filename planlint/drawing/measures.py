"""The numbers of one fastener in its joint, mm along its axis from where it enters the wood."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from planlint.drawing.hardware import Fastener
from planlint.judge.finding import Finding, Value
from planlint.show.quantities import word_all

_SAME = 0.01  # mm: nearer than this is enough


class Joint(NamedTuple):
    """The way through the wood: (part, enter, leave) in order, which of them must hold, and where the wood ends."""

    ways: tuple[tuple[str, float, float], ...]
    receiver: int | None
    wood_end: float

    @property
    def through(self) -> float:
        """Where the part that must hold begins."""
        return self.wood_end if self.receiver is None else self.ways[self.receiver][1]


class Need(NamedTuple):
    """What the finding asks for, mm; None for what it does not."""

    embedment: float | None = None
    length: float | None = None  # in all, of a bolt
    under_head: float | None = None


class Length(NamedTuple):
    """A length along the axis with a name of its own; `{}` in its text stands for it."""

    text: str
    start: float
    end: float
    name: str
    fault: bool


class Measure(NamedTuple):
    """One length along the axis, in words; `fault` where the finding is about it."""

    start: float
    end: float
    text: str
    fault: bool = False


def wanted_tip(one: Fastener, joint: Joint, need: Need) -> float | None:
    """Where the tip should at least be; None where no finding says."""
    if need.length is not None:
        return one.seat + need.length
    if need.embedment is None or joint.receiver is None:
        return None
    return joint.through + need.embedment


def number(finding: Finding, name: str) -> float | None:
    """A length that the finding's text tells; None where it tells none."""
    value = finding.values.get(name)
    if value is None or value.kind != "length" or not isinstance(value.value, (int, float)):
        return None
    return float(value.value)


def lengths(one: Fastener, joint: Joint, need: Need, about_cover: bool) -> list[Length]:
    """All that is measured along the axis; `about_cover` where the finding is about the wood beyond the tip."""
    found: list[Length] = []
    if one.bore and one.seat > 0.0 and not one.kind.pocketed:
        found.append(Length("counterbore {}", 0.0, one.seat, "counterbore", False))
    found += _passed(one, joint, need)
    found += _held(one, joint, need)
    out = one.tip > joint.wood_end + _SAME and one.kind.sharp
    if out:
        found.append(Length("{} out", joint.wood_end, one.tip, "out", True))
    elif about_cover:
        found.append(Length("{} left", one.tip, joint.wood_end, "left", False))
    found.append(Length("length {}", one.seat, one.tip, "length", False))
    if need.length is not None:
        short = one.length < need.length - _SAME
        found.append(Length("needed {}", one.seat, one.seat + need.length, "needed", short))
    return [each for each in found if each.end - each.start > _SAME]


def _passed(one: Fastener, joint: Joint, need: Need) -> list[Length]:
    """The wood of each part before the one that must hold it, from the head on."""
    before = joint.ways[: joint.receiver]
    found: list[Length] = []
    for index, (_, enter, leave) in enumerate(before):
        start = max(enter, one.seat, 0.0)
        first = index == 0 and need.under_head is not None
        thin = first and leave - one.seat < (need.under_head or 0.0) - _SAME
        text = "{} under the head" if first else "{}"
        found.append(Length(text, start, leave, f"passed {index}", thin))
        if first and need.under_head is not None:
            found.append(Length("needed {}", one.seat, one.seat + need.under_head, "needed under", thin))
    return found


def _held(one: Fastener, joint: Joint, need: Need) -> list[Length]:
    if joint.receiver is None:
        return []
    found: list[Length] = []
    short = need.embedment is not None and one.tip < joint.through + need.embedment - _SAME
    if one.kind.what != "bolt":
        if one.tip > joint.through:
            found.append(Length("{} held", joint.through, one.tip, "embedment", short))
        else:
            found.append(Length("ends {} before it", one.tip, joint.through, "before", True))
    if need.embedment is not None:
        found.append(Length("needed {}", joint.through, joint.through + need.embedment, "needed", short))
    return found


def worded(
    versions: Sequence[Sequence[Length]], finding: Mapping[str, Value], units: str
) -> list[list[Measure]]:
    """The lengths of all versions worded together, and with the finding's own: two that differ never read the same."""
    told = {name: value for name, value in finding.items() if value.kind == "length" and "cover" not in name}
    words: dict[str, str] = {}
    # What is over beyond the tip is no length of the fastener: it may come near one without meaning it.
    for beyond in (False, True):
        values = {
            f"{i} {one.name}": Value(one.end - one.start, "length")
            for i, some in enumerate(versions)
            for one in some
            if (one.name in ("out", "left")) is beyond
        }
        words.update(word_all(values if beyond else {**told, **values}, units))
    return [
        [
            Measure(one.start, one.end, one.text.replace("{}", words[f"{i} {one.name}"]), one.fault)
            for one in some
        ]
        for i, some in enumerate(versions)
    ]
