"""Panels trimmed to a size, beside what their boards make."""

from __future__ import annotations

from tests.observe.hand_worked import inches, known, row, rows

HEAD = 'plan "Lid"\n  units in\n  wood pine\nparts\n'


def test_boards_side_by_side_make_the_width_and_one_of_them_the_length() -> None:
    """Two 1x8 of 7 1/4 in make 14 1/2 in."""
    found = row(
        HEAD + "  board: 2 of 1x8 @ 38\n  lid: 1 of panel 18 1/2 x 37 from 2 board\n", "trimmed_panel"
    )
    assert found.values["part"] == "lid" and found.values["board"] == "board"
    assert (inches(found, "across"), inches(found, "made")) == (18.5, 14.5)
    assert (inches(found, "along"), inches(found, "board_length")) == (37, 38)


def test_where_the_grain_runs_across_the_boards_do() -> None:
    text = HEAD + "  board: 6 of 1x8 @ 19\n  lid: 1 of panel 18 1/2 x 37 from 6 board, grain across\n"
    found = row(text, "trimmed_panel")
    assert (inches(found, "across"), inches(found, "along")) == (37, 18.5)


def test_a_panel_that_is_not_trimmed_is_as_large_as_its_boards() -> None:
    assert rows(HEAD + "  board: 2 of 1x8 @ 38\n  lid: 1 of panel from 2 board\n", "trimmed_panel") == []


def test_boards_of_no_known_length_leave_the_length_open() -> None:
    """A length from long point to short point is not what the board measures."""
    text = (
        HEAD
        + "  board: 2 of 1x8 @ 38 long to short, ends mitred 12\n  lid: 1 of panel 14 x 37 from 2 board\n"
    )
    assert not known(row(text, "trimmed_panel"), "board_length")
