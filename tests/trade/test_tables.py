"""The table files: sources, confidence, units, and the cache."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from planlint.resources import cache_folder, files
from planlint.trade import tables

CONFIDENCE = ("confirmed", "one source", "from memory", "common practice, no source", "our choice")
GROUP_KEYS = {"about", "source", "confidence", "note", "units", "rows"}
# The engine's own table, which has its own reader and its own tests.
NOT_OURS = {"limits"}
NAMES = sorted(
    path.removeprefix("tables/").removesuffix(".yaml")
    for path, _ in files("rules", ".yaml")
    if path.startswith("tables/")
)
OURS = [name for name in NAMES if name not in NOT_OURS]


def text(name: str) -> bytes:
    return dict(files("rules", ".yaml"))[f"tables/{name}.yaml"]


def groups(name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """The groups as they are written, before any conversion."""
    yield from yaml.safe_load(text(name)).items()


def unsourced(group: dict[str, Any]) -> list[str]:
    """The rows of a group that say neither themselves nor by their group where they are from."""
    return [
        str(name)
        for name, row in group["rows"].items()
        if not (row.get("source") or group.get("source"))
        or (row.get("confidence") or group.get("confidence")) not in CONFIDENCE
    ]


def test_the_check_for_sources_finds_a_row_without_one() -> None:
    assert unsourced({"rows": {"a": {"source": "a book"}}}) == ["a"]
    assert unsourced({"confidence": "confirmed", "rows": {"a": {}}}) == ["a"]
    assert unsourced({"source": "a book", "confidence": "surely", "rows": {"a": {}}}) == ["a"]
    assert unsourced({"source": "a book", "confidence": "confirmed", "rows": {"a": {}}}) == []


@pytest.mark.parametrize("name", OURS)
def test_no_row_without_source_and_confidence(name: str) -> None:
    for group_name, group in groups(name):
        assert unsourced(group) == [], group_name


@pytest.mark.parametrize("name", OURS)
def test_groups_have_only_known_keys_and_say_what_they_are(name: str) -> None:
    for group_name, group in groups(name):
        assert set(group) <= GROUP_KEYS, group_name
        assert group["about"], group_name


@pytest.mark.parametrize("name", OURS)
def test_a_source_that_is_only_habit_is_not_called_anything_better(name: str) -> None:
    for group_name, group in groups(name):
        for row_name, row in group["rows"].items():
            if row.get("source", group["source"]) == "common practice, no source":
                where = f"{group_name}: {row_name}"
                assert row.get("confidence", group["confidence"]) == "common practice, no source", where


@pytest.mark.parametrize("name", OURS)
def test_no_field_with_a_unit_stays_text(name: str) -> None:
    """`3 1/2` that nobody converted would be compared as a word."""
    for group_name, group in tables.load(name).items():
        for row_name, row in group["rows"].items():
            for field in group.get("units", {}):
                value = row.get(field, 0.0)
                assert not isinstance(value, str), f"{group_name}: {row_name}: {field}"


@pytest.mark.parametrize("name", OURS)
def test_no_key_twice(name: str) -> None:
    """YAML silently keeps the last of two equal keys: a row typed twice would lose the first."""

    def check(node: yaml.Node | None) -> None:
        if isinstance(node, yaml.MappingNode):
            keys = [key.value for key, _ in node.value]
            assert len(keys) == len(set(keys)), node.start_mark
            for _, value in node.value:
                check(value)

    check(yaml.compose(text(name)))


def test_the_figures_a_wood_calls_surer_are_figures_it_has() -> None:
    for name, row in tables.rows("woods", "woods").items():
        for confidence, fields in row.get("surer", {}).items():
            assert confidence in CONFIDENCE
            assert set(fields) <= set(row), name


@pytest.mark.parametrize(
    ("written", "unit", "expected"),
    [
        ("3 1/2", "in", 88.9),
        ("5/8", "in", 15.875),
        ("3 mm", "in", 3.0),
        ("92 5/8 in", "ft", 2352.675),
        (0.19, "in", 4.826),
        (8, "ft", 2438.4),
        ("2/3", "number", 2 / 3),
        (1000, "psi", 6.894757293168361),
        (1.5, "Mpsi", 10342.135939752541),
    ],
)
def test_amounts_come_out_in_base_units(written: Any, unit: str, expected: float) -> None:
    assert tables.amount(written, unit) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("written", ["", "in", "3 1/2 parsecs", "wide"])
def test_what_is_no_amount_is_refused(written: str) -> None:
    with pytest.raises(ValueError, match=r"no number|convert"):
        tables.amount(written, "in")


@pytest.fixture
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    tables.tables.cache_clear()
    yield Path(cache_folder())
    tables.tables.cache_clear()


def test_the_tables_from_the_cache_are_those_from_their_texts(
    own_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fresh = tables.tables()
    tables.tables.cache_clear()
    monkeypatch.setattr(tables, "parse", lambda text: pytest.fail("read again"))
    assert tables.tables() == fresh
    assert set(fresh) == set(OURS)


def test_a_cache_of_another_text_is_not_used(own_cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An edited table must count at once."""
    tables.tables()
    tables.tables.cache_clear()
    edited = text("lumber").replace(b"1x2: {thickness: 3/4", b"1x2: {thickness: 7/8")
    monkeypatch.setattr(tables, "files", lambda kind, ending: [("lumber.yaml", edited)])
    monkeypatch.setattr(tables, "stamps", lambda kind, *endings: [("lumber.yaml", len(edited), 1)])
    assert tables.rows("lumber", "softwood")["1x2"]["thickness"] == pytest.approx(22.225)
