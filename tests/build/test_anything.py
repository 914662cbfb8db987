# ruff: noqa: E501 (an entry of a plan stays on one line)
"""Whatever a readable plan says, the placing half answers with parts and troubles, never with a traceback."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.piece import Piece
from planlint.build.place import place_parts
from planlint.read.reader import read
from planlint.source import Source

CLAUSES = (
    "runs up", "runs left-right", "runs front-back", "face left", "face top", "face back", "left at 0", "right at 9",
    "front at 0", "back at back of b", "bottom at 0", "top at top of a", "middle up at 4", "centred left-right on c",
    "between a and b", "between floor and bottom of c", "between right of a and left of b", "between back of a and bottom of c",
    "leans 12 toward back", "leans 5 toward left", "rises 45 toward back", "turns 20 toward left", "leans 90 toward front",
    "rises 0 toward top", "ends cut level", "bottom cut plumb", "top cut 30 long at left", "left cut 10 long at top",
    "left tapered 1/2 at bottom", "front tapered 9 at top from 400 below top", "row of 3 left-right from 0 to 20",
    "row of 4 up between a and c", "row of 2 front-back gap 1", "mirrored left-right about 10", "mirrored front-back",
    "mirrored up about top of b", "like b", "like w", "front of p at 3", "top of q at 0",
)  # fmt: skip
clauses = st.lists(st.sampled_from(CLAUSES), min_size=1, max_size=9).map(", ".join)
STOCK = (
    "2x4 @ 20",
    "1 x 1 @ fit",
    "1 in round @ 9",
    "3/4 x 9 @ 12 long to short",
    "2x4 @ 12 short to short",
    "panel from 3 a",
)
JOINS = "step\n  a to b: housed 1/2 deep\n  b to c: mortise-and-tenon 1/2 x 1 x 1 in\n  p to q: housed\n"
STATED = "dimensions\n  overall: 1 x 2 x 3\n  left of a to right of b at top = 4\n  top of c to floor = 3\n  leans of b = 5\n  turns of x = 9\n"
COVER = "cover\n  seat: a from left of b to right of c\n"


@given(
    st.lists(st.sampled_from(STOCK), min_size=3, max_size=3),
    st.lists(clauses, min_size=3, max_size=3),
    clauses, clauses, clauses,
)  # fmt: skip
@settings(max_examples=250, deadline=None)
def test_any_clauses_on_any_stock(
    stock: list[str], said: list[str], inner: str, other: str, held: str
) -> None:
    text = 'plan "T"\n  units in\nparts\n'
    text += "".join([f"  {name}: 2 of {what}\n" for name, what in zip("abc", stock, strict=True)])
    text += f"place in x\n  a as p: {inner}\n  b as q, r: {other}\nplace\n  x as x1, x2: {held}\n"
    text += "".join([f"  {name}: {what}\n" for name, what in zip("abc", said, strict=True)])
    plan, _ = read(Source(text + JOINS + STATED + COVER))
    piece = Piece(plan)
    place_parts(plan, piece)
    for part in piece.parts:
        assert part.solid.volume >= 0.0
        assert part.name not in piece.unplaced_names
    assert all(piece.unplaced_names.values())
    assert len(piece.listed) == 3
