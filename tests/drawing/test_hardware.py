"""Fasteners as they are drawn: the sizes that a builder could measure off the paper."""

from __future__ import annotations

import math

import pytest

from planlint.drawing.hardware import Fastener, Flat, shapes_of, start_of
from planlint.trade import screws, shapes
from planlint.trade.tables import rows

KINDS = [*rows("screws", "kinds"), *rows("screws", "fittings")]
INCH = 25.4


def fastener(
    noun: str, diameter: float = 0.19 * INCH, length: float = 2 * INCH, seat: float = 0.0
) -> Fastener:
    kind = screws.kind(noun)
    assert kind is not None
    return Fastener(kind, diameter, length, seat, 0.0, False, 0.0, 1000.0)


def steel(one: Fastener) -> list[Flat]:
    return [point for shape in shapes_of(one) for point in shape.points]


@pytest.mark.parametrize("noun", KINDS)
def test_the_tip_is_where_the_length_ends(noun: str) -> None:
    """A tip drawn elsewhere would show the wrong embedment."""
    one = fastener(noun, seat=5.0)
    assert max(u for u, _ in steel(one)) == pytest.approx(one.tip)


@pytest.mark.parametrize("noun", KINDS)
def test_the_head_is_as_wide_as_the_table_says(noun: str) -> None:
    one = fastener(noun, seat=5.0)
    widest = max(abs(w) for _, w in steel(one))
    assert widest == pytest.approx(max(one.head, one.diameter) / 2.0)


@pytest.mark.parametrize("noun", KINDS)
def test_everything_lies_even_about_the_axis(noun: str) -> None:
    for shape in shapes_of(fastener(noun)):
        assert sum(w for _, w in shape.points) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("noun", KINDS)
def test_a_length_under_the_head_has_the_head_outside(noun: str) -> None:
    """The head of a bolt drawn inside its length would make it too short to come out."""
    one = fastener(noun, seat=20.0)
    begins = start_of(one)
    assert begins < one.seat if one.kind.length_from != "overall" else begins >= one.seat - one.diameter


@pytest.mark.parametrize(("diameter", "angle"), [(0.19 * INCH, 82.0), (5.0, 90.0)])
def test_a_flat_head_has_its_cone(diameter: float, angle: float) -> None:
    """ASME B18.6.1: 82 deg for inch screws; ISO 7050: 90 deg for metric ones (from memory)."""
    one = fastener("wood-screws", diameter)
    cone = next(shape for shape in shapes_of(one) if shape.points[0] == (0.0, one.head / 2.0))
    (u0, w0), (u1, w1) = cone.points[:2]
    assert math.degrees(2 * math.atan((w0 - w1) / (u1 - u0))) == pytest.approx(angle)


def test_a_bolt_has_a_nut_only_where_it_comes_out() -> None:
    """A nut drawn inside the wood would hide the fault."""
    bolt = fastener("hex-bolts", 9.5, 80.0)
    out, within = bolt._replace(wood_end=60.0), bolt._replace(wood_end=90.0)
    assert len(shapes_of(out)) == len(shapes_of(within)) + 2
    nut = shapes_of(out)[-1].points
    assert min(u for u, _ in nut) > 60.0


def test_the_thread_is_as_long_as_the_trade_has_it() -> None:
    one = fastener("wood-screws")
    threads = [shape for shape in shapes_of(one) if shape.pen == "thread"]
    first = min(u for shape in threads for u, _ in shape.points)
    assert one.tip - first == pytest.approx(
        screws.threaded_length(one.length, one.diameter, "wood-screws"), abs=one.diameter * shapes.pitch()
    )
