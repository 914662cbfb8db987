"""Screws, nails and pins: diameters, roots, pilots, and what each kind of fastener is. All lengths in mm."""

from functools import cache
from typing import Any, NamedTuple

from planlint.trade.tables import rows


class FastenerKind(NamedTuple):
    """What a noun of the notation means on the bench."""

    noun: str
    what: str  # "screw", "bolt", "nail", "pin" or "plate"
    threaded: bool
    pocketed: bool
    sharp: bool  # its tip can hurt where it comes out
    length_from: str  # "overall", "under head" or "seat"
    head: float  # the head's or washer's diameter, in diameters
    holds: str  # which embedment limits judge it: "threads", "pocket", "light" or "none"
    rigid_over: float | None  # longer than this it holds wood fast against moving; None: it lets it move
    pilot: bool  # it may need a pilot hole
    lengths: str | None  # the list of lengths sold

    def rigid(self, length: float) -> bool:
        """Whether a fastener of this kind and length holds wood fast against moving."""
        return self.rigid_over is not None and length > self.rigid_over


@cache
def kind(noun: str) -> FastenerKind | None:
    """What this fastener or fitting is, also in the singular; None for a noun no table has."""
    for group in ("kinds", "fittings"):
        table = rows("screws", group)
        for name in (noun, f"{noun}s"):
            if name in table:
                return _kind(name, table[name])
    return None


@cache
def diameter(gauge: int) -> float | None:
    """The diameter of a gauge screw, 0.060 + 0.013 N in; None for a gauge not sold. Source: ASME B18.6.1."""
    if str(gauge) not in rows("screws", "gauges"):
        return None
    rule = rows("screws", "gauge_rule")["diameter"]
    found: float = rule["constant"] + rule["step"] * gauge
    return found


@cache
def root(gauge: int) -> float | None:
    """The diameter between a gauge screw's threads; None for a gauge not sold.

    Source: NDS 2018 Table L3, from memory.
    """
    across = diameter(gauge)
    if across is None:
        return None
    listed: float | None = rows("screws", "gauges")[str(gauge)].get("root")
    return across * _share("gauge") if listed is None else listed


@cache
def gauge_of(across: float) -> int | None:
    """The gauge that has just this diameter, or None: 3.5 mm is metric, 3.505 is a No. 6."""
    return next(
        (gauge for gauge in map(int, rows("screws", "gauges")) if _same(diameter(gauge), across)), None
    )


@cache
def root_of(across: float, noun: str) -> float:
    """The root of a screw known by its diameter: by gauge, lag screws by their table, else the metric share.

    All from memory.
    """
    gauge = gauge_of(across)
    by_gauge = None if gauge is None or noun == "lag-screws" else root(gauge)
    if by_gauge is not None:
        return by_gauge
    if noun == "lag-screws":
        for row in rows("screws", "lag_roots").values():
            if _same(row["diameter"], across):
                found: float = row["root"]
                return found
    return across * _share("metric")


@cache
def in_inches(across: float) -> bool:
    """Whether a diameter belongs to a fastener sold in inches: whole thousandths or thirty-seconds of one."""
    steps = rows("screws", "inch_steps").values()
    return any(_same(round(across / row["step"]) * row["step"], across) for row in steps)


def pilot(root_diameter: float, hardwood: bool) -> float:
    """The pilot for the threads: 70 % of the root in softwood, 90 % in hardwood (Wood Handbook ch. 8)."""
    share: float = rows("screws", "pilots")["hardwood" if hardwood else "softwood"]["share"]
    return root_diameter * share


def pilot_drill(root_diameter: float, hardwood: bool, metric: bool = False) -> float:
    """The drill nearest to that pilot: sizes go by 1/64 in or 0.5 mm."""
    step: float = rows("screws", "drills")["metric" if metric else "inches"]["step"]
    count = max(1, round(pilot(root_diameter, hardwood) / step))
    return count * step


def threaded_length(length: float, across: float, noun: str) -> float:
    """How much of a screw is threaded, from its tip on. Source: ASME B18.6.1, NDS Appendix L, from memory."""
    if noun == "lag-screws":
        lag = rows("screws", "threads")["lag"]
        return float(min(length, length * lag["share"] + lag["more"], lag["most"]))
    screw = rows("screws", "threads")["screw"]
    return float(min(length, max(length * screw["share"], across * screw["diameters"])))


def least_penetration(across: float, what: str) -> float:
    """The least that must lie in the wood for any published strength: 6 D (`screw`, `nail`), 4 D (`lag`)."""
    return across * float(rows("screws", "least_penetration")[what]["diameters"])


@cache
def nail_diameter(length: float) -> float:
    """The diameter of a common nail of this length: that of the longest listed size that is no longer."""
    listed = sorted(
        (float(row["length"]), float(row["diameter"])) for row in rows("screws", "nails").values()
    )
    return max([listed[0], *(nail for nail in listed if nail[0] <= length + 0.01)])[1]


def brad_diameter() -> float:
    """The wire of a nailer's brad (common practice, no source)."""
    found: float = rows("screws", "brads")["18-gauge"]["diameter"]
    return found


def is_let_in_nut(noun: str) -> bool:
    """Whether this hardware is a nut that sits in the wood, also in the singular (common practice, no source)."""
    return noun in rows("screws", "let_in_nuts") or f"{noun}s" in rows("screws", "let_in_nuts")


def rod_for_plug(counterbore_depth: float) -> float:
    """The rod that one plug takes: the depth, what stands proud to be trimmed, and a saw cut."""
    rod = rows("screws", "plugs")["rod"]
    found: float = counterbore_depth + rod["proud"] + rod["kerf"]
    return found


def _kind(noun: str, row: dict[str, Any]) -> FastenerKind:
    return FastenerKind(
        noun=noun,
        what=row["what"],
        threaded=row["threaded"],
        pocketed=row.get("pocketed", False),
        sharp=row["sharp"],
        length_from=row["length_from"],
        head=row["head"],
        holds=row["holds"],
        rigid_over=row.get("rigid_over"),
        pilot=row["pilot"],
        lengths=row.get("lengths"),
    )


def _share(of: str) -> float:
    found: float = rows("screws", "root_shares")[of]["share"]
    return found


def _same(one: float | None, other: float) -> bool:
    return one is not None and abs(one - other) < 0.0005
