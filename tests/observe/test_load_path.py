"""Which joints a load hangs on: a slat's ledger carries it, and the ledger does not hang on the slat."""

from __future__ import annotations

from planlint.build.build import build
from planlint.observe.load_path import loaded_pairs
from planlint.read.reader import read
from planlint.source import Source


def hangs_on(text: str) -> set[str]:
    """The pairs whose fasteners carry a load."""
    piece = build(read(Source(text))[0])
    return {f"{piece.parts[a].name} + {piece.parts[b].name}" for a, b in loaded_pairs(piece)}


BED = """\
plan "Slats on ledgers"
  units in
parts
  post:   4 of 4x4 @ 16
  rail:   2 of 2x6 @ 30
  ledger: 2 of 2x2 @ 30
  slat:   1 of 1x4 @ 37
  prop:   1 of 4x4 @ 13 1/2
place
  post as post-fl, post-fr, post-bl, post-br: runs up, left at 0, front at 0, bottom at 0,
    mirrored left-right about 20 and front-back about 18 1/2
  rail as rail-l, rail-r: runs front-back, face left, between post-fl and post-bl, left at 0, bottom at 10,
    mirrored left-right about 20
  ledger as ledger-l, ledger-r: runs front-back, face left, left at right of rail-l, front at 3 1/2,
    top at 13 1/2, mirrored left-right about 20
  slat: runs left-right, face top, middle left-right at 20, middle front-back at 18 1/2, bottom at 13 1/2
  prop: runs up, middle left-right at 20, middle front-back at 18 1/2, bottom at 0
step
  rail to post: 2 wood-screws #10 x 4 in
  ledger to rail: 3 wood-screws #8 x 2 1/2 in
  slat to ledger: 1 wood-screws #8 x 1 1/2 in
load
  slat: 1 person
"""


def test_a_ledger_does_not_hang_on_the_slat_that_lies_on_it() -> None:
    """The prop makes the slat the shorter way to the floor; the load still goes down, not up through it."""
    assert not any("slat" in pair for pair in hangs_on(BED))
    assert "rail-l + ledger-l" in hangs_on(BED)


def test_what_only_hangs_below_another_hangs_on_it() -> None:
    """A rack screwed up under a shelf: its screws carry what is put on it."""
    text = """\
plan "Rack under a shelf"
  units in
parts
  side:  2 of 1x12 @ 30
  shelf: 1 of 1x12 @ 30
  rack:  1 of 1x4 @ 24
place
  side as side-l, side-r: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 15
  shelf: runs left-right, face top, left at 0, front at 0, bottom at top of side-l
  rack: runs left-right, face front, middle left-right at 15, front at 4, top at bottom of shelf
step
  shelf to side: 3 wood-screws #8 x 2 in
  shelf to rack: 3 wood-screws #8 x 2 in
load
  rack: 20 lb spread
"""
    assert "shelf + rack" in hangs_on(text)


def test_a_beam_let_into_legs_does_not_hang_on_the_blocks_below_it() -> None:
    text = """\
plan "Trestle"
  units in
parts
  beam:  1 of 4x4 @ 36
  leg:   4 of 2x4 @ 30
  block: 2 of 2x4 @ 3 1/2
place
  beam: runs left-right, left at 0, front at 0, top at 30
  leg as leg-fl, leg-fr, leg-bl, leg-br: runs up, face front, left at 3, front at -1, bottom at 0,
    mirrored left-right about 18 and front-back about 1 3/4
  block as block-l, block-r: runs front-back, face left, left at 4, front at 0, top at bottom of beam,
    mirrored left-right about 18
step
  leg to beam: notched and 2 wood-screws #10 x 2 1/2 in
  leg to block: 2 wood-screws #10 x 2 1/2 in
load
  beam: 200 lb at middle
"""
    assert hangs_on(text) == set()
