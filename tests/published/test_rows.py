"""The files of published figures themselves."""

from __future__ import annotations

import pytest

from .rows import COLUMNS, HERE, RowError, parse, published

FILES = sorted(path.stem for path in HERE.glob("*.csv"))
HEADER = ",".join(COLUMNS)
SOUND = "a,what,a book,2010,Table 1,x=1,2.5,in,0,confirmed,"


def test_a_sound_row_is_read() -> None:
    assert parse(f"{HEADER}\n{SOUND}\n")[0].published == 2.5


@pytest.mark.parametrize("column", ["source", "confidence", "unit", "published", "tolerance"])
def test_a_row_that_lacks_what_makes_it_checkable_is_refused(column: str) -> None:
    cells = SOUND.split(",")
    cells[COLUMNS.index(column)] = ""
    with pytest.raises(RowError, match=column):
        parse(f"{HEADER}\n{','.join(cells)}\n")


def test_a_confidence_of_ones_own_making_is_refused() -> None:
    with pytest.raises(RowError, match="quite sure"):
        parse(f"{HEADER}\n{SOUND.replace('confirmed', 'quite sure')}\n")


@pytest.mark.parametrize("name", FILES)
def test_every_file_has_only_sound_rows_and_no_id_twice(name: str) -> None:
    ids = [row.id for row in published(name)]
    assert ids
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", FILES)
def test_every_file_is_used_by_a_test(name: str) -> None:
    """A file nobody reads would look like a check and be none."""
    used = "".join(path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py"))
    assert f'published("{name}")' in used
