"""The tools that one step takes, with their sizes: from its fastenings and from the pilot holes of its screws."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.judge.finding import Value
from planlint.observe.circumstances import is_metric
from planlint.observe.facts import Missing
from planlint.observe.fastener_kind import diameter_of, length_of
from planlint.observe.joins import join_key
from planlint.observe.pilots import PILOT
from planlint.read.plan import Fastening, Join, Step
from planlint.show.quantities import listed, word
from planlint.trade import screws
from planlint.trade.tools import ToolRow, for_fastener, for_joint


class Tool(NamedTuple):
    """One tool: its trade name, its size in the plan's units ("" where it has none), and what for."""

    name: str
    size: str
    purpose: str


class _Pilot(NamedTuple):
    """The drill for some screws in one part; "" where its size is not known."""

    kind: str
    part: str
    size: str


Pilots = dict[str, list[_Pilot]]  # by the join's key


def tools_of(step: Step, audit: Audit, drilled: Pilots) -> tuple[Tool, ...]:
    """Every tool once, in the order of the work, for the glue last; one that several parts need names them all."""
    found: list[tuple[str, str, str, str]] = []
    fastenings = [(join, fastening) for join in step.joins for fastening in join.fastenings]
    for is_glue in (False, True):
        for join, fastening in fastenings:
            if (fastening.kind == "glue") is not is_glue:
                continue
            pilots = drilled.get(join_key(join), [])
            for row in _rows(fastening):
                found += _told(row, join, fastening, pilots, audit.plan.heading.units)
    merged: dict[tuple[str, str, str], dict[str, None]] = {}
    for name, size, purpose, part in found:
        merged.setdefault((name, size, purpose), {})[part] = None
    return tuple(
        [
            Tool(name, size, purpose.replace("{part}", listed(list(parts), 4)))
            for (name, size, purpose), parts in merged.items()
        ]
    )


def _rows(fastening: Fastening) -> list[ToolRow]:
    """The tools of a fastening, what is drilled first before what drives."""
    if fastening.kind != "counted":
        return list(for_joint(fastening.kind))
    rows = list(for_fastener(fastening.noun.text, screws.kind(fastening.noun.text)))
    if fastening.counterbore is not None:
        rows = [*for_joint("counterbored"), *[row for row in rows if row.key != "driver"], *for_joint("sunk")]
        if not any(
            row.key == "driver" for row in for_fastener(fastening.noun.text, screws.kind(fastening.noun.text))
        ):
            rows = [row for row in rows if row.key != "long-driver"]
    if fastening.slotted is not None:
        rows = [*for_joint("slotted"), *rows]
    if fastening.plugged is not None:
        rows += for_joint("plugged")
    return rows


def _told(
    row: ToolRow, join: Join, fastening: Fastening, pilots: Sequence[_Pilot], units: str
) -> Iterator[tuple[str, str, str, str]]:
    """A tool as (name, size, purpose with its `{part}` open, part)."""
    purpose = row.purpose.replace("{what}", fastening.noun.text).replace("{depth}", _depth(fastening, units))
    if row.size == "pilot":
        kind = screws.kind(fastening.noun.text)
        for pilot in pilots:
            if kind is not None and pilot.kind == kind.noun:
                open_size = (
                    "" if pilot.size else "; its size goes by the wood and the gauge, which are not known"
                )
                yield row.name, pilot.size, purpose + open_size, pilot.part
        return
    part = str(join.second) if row.key == "mortise" else str(join.first)
    yield row.name, _size(row, fastening, units), purpose, part


def _size(row: ToolRow, fastening: Fastening, units: str) -> str:
    kind = screws.kind(fastening.noun.text)
    if row.size == "bore" and fastening.counterbore is not None:
        return _length(fastening.counterbore.diameter.value, units)
    if row.size == "shank" and kind is not None:
        across = diameter_of(fastening, kind, length_of(fastening, kind))
        return "" if across is None else _length(across, units)
    if row.size == "thickness" and fastening.tenon is not None:
        return _length(fastening.tenon[0].value, units)
    return ""


def _depth(fastening: Fastening, units: str) -> str:
    if fastening.counterbore is not None:
        return _length(fastening.counterbore.depth.value, units)
    if fastening.slotted is not None:
        return _length(fastening.slotted.value, units)
    if fastening.depth is not None:
        return _length(fastening.depth.value, units)
    return _length(fastening.tenon[2].value, units) if fastening.tenon is not None else "as"


def _length(x: float, units: str) -> str:
    return word(Value(x, "length"), units)


def pilots_of(audit: Audit) -> Pilots:
    """The pilot drills for the threads of each join's screws: as stated, else by the root and the wood."""
    found: Pilots = {}
    seconds = {join_key(join): str(join.second) for step in audit.plan.steps for join in step.joins}
    metric, units = is_metric(audit.plan), audit.plan.heading.units
    for row in audit.facts.rows.get(PILOT.name, ()):
        values = row.values
        key = str(values["join"])
        if key not in seconds or not values["holds_here"] or not values["drilled"]:
            continue
        stated, root, hard = values["pilot"], values["root"], values["hardwood"]
        size = ""
        if isinstance(stated, float):
            size = _length(stated, units)
        elif isinstance(root, float) and not isinstance(hard, Missing):
            size = _length(screws.pilot_drill(root, bool(hard), metric), units)
        one = _Pilot(str(values["kind"]), seconds[key], size)
        own = found.setdefault(key, [])
        if one not in own:
            own.append(one)
    return found
