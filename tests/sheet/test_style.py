"""The page's colours, worked out from its own style sheet."""

from __future__ import annotations

import re

import pytest

from planlint.drawing.ink import INK
from planlint.sheet.style import COLOURS, STYLE

# (words, what they stand on)
PAIRS = [
    (ink, paper)
    for paper in ("paper", "card")
    for ink in ("ink", "quiet", "stop", "check", "hint", "becomes")
] + [("on-pen", "stop"), ("ink", "lit"), ("stop", "lit")]
DRAWN = [
    ("ink", "card"),
    ("note", "card"),
    ("fault", "card"),
    ("fault", "lit"),
]  # in a drawing, on the page's paper
MODES = {"light": [0], "dark": [0, 1], "print": [0, 2]}


def _modes(style: str) -> dict[str, dict[str, str]]:
    """The colours in each mode: blocks in the order light, dark, print, later ones over earlier."""
    blocks = [dict(re.findall(r"--([\w-]+): (#\w{6})", block)) for block in re.split(r"@media", style)]
    assert len(blocks) == 3
    return {mode: {k: v for i in order for k, v in blocks[i].items()} for mode, order in MODES.items()}


def _luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_worked_out_as_the_standard_does() -> None:
    assert _contrast("#000000", "#ffffff") == pytest.approx(21)
    assert _contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize(("ink", "paper"), PAIRS)
def test_words_can_be_read_by_weak_eyes(mode: str, ink: str, paper: str) -> None:
    colours = _modes(COLOURS)[mode]
    assert _contrast(colours[ink], colours[paper]) >= 4.5


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize(("ink", "paper"), DRAWN)
def test_drawings_can_be_read_on_the_pages_paper(mode: str, ink: str, paper: str) -> None:
    assert (
        _contrast(_modes(INK.split("\n.drawing .sheet")[0])[mode][ink], _modes(COLOURS)[mode][paper]) >= 4.5
    )


def test_every_colour_the_style_asks_for_is_there_in_every_mode() -> None:
    asked = set(re.findall(r"var\(--([\w-]+)\)", STYLE))
    there = {name for colours in (COLOURS, INK) for name in _modes_or_all(colours)}
    assert asked <= there


def _modes_or_all(style: str) -> set[str]:
    return set(re.findall(r"--([\w-]+):", style))


def test_the_dark_look_never_reaches_paper() -> None:
    assert "@media screen and (prefers-color-scheme: dark)" in COLOURS


def test_the_style_fetches_nothing() -> None:
    assert not re.search(r"url\(|@import|@font-face", STYLE)
