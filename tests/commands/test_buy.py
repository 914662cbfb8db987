"""`planlint buy`, run as its user runs it."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from planlint.command import main
from planlint.commands.exit_codes import SOUND, UNUSABLE

ROOT = Path(__file__).parents[2]
PLANTER = ROOT / "samples/sound/herb-planter.plan"
BENCH = ROOT / "samples/faulty/balcony-bench.plan"


def test_the_list_of_a_sound_plan(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["buy", str(PLANTER)]) == SOUND
    text = capsys.readouterr().out
    assert "[ ]   50  wood screws 4.5 x 50 mm, stainless" in text
    assert "counts in" not in text


def test_a_mended_plans_list_says_what_it_counts_in_and_what_stays_open(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Whoever buys by it must know that the plan in hand is another one."""
    assert main(["buy", str(BENCH), "--as", "json"]) == SOUND
    found = json.loads(capsys.readouterr().out)
    assert found["basis"]["mends"]
    assert found["basis"]["text"].startswith("This list counts in ")
    assert len(found["basis"]["open_stops"]) > 0
    assert "stay open and may change it" in found["basis"]["text"]
    screws = next(
        line for group in found["groups"] for line in group["lines"] if "#10 x 4 in" in line["what"]
    )
    assert screws["difference"] == "changed"
    assert "#10 x 3 in" in screws["plan_list"]["words"]


def test_a_plan_file_stays_as_it_was(tmp_path: Path) -> None:
    plan = tmp_path / "a.plan"
    plan.write_bytes(BENCH.read_bytes())
    main(["buy", str(plan), "-o", str(tmp_path / "list.txt")])
    assert plan.read_bytes() == BENCH.read_bytes()
    assert "To buy" in (tmp_path / "list.txt").read_text(encoding="utf-8")


def test_a_table_in_a_file_keeps_its_line_ends(tmp_path: Path) -> None:
    target = tmp_path / "list.csv"
    assert main(["buy", str(PLANTER), "--as", "csv", "-o", str(target)]) == SOUND
    content = target.read_bytes()
    assert content.count(b"\r\n") == content.count(b"\n") > 5
    assert next(csv.reader(io.StringIO(content.decode())))[0] == "group"


def test_what_cannot_be_read_or_written_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["buy", str(tmp_path / "no.plan")]) == UNUSABLE
    assert main(["buy", str(PLANTER), "-o", str(tmp_path / "no" / "list.txt")]) == UNUSABLE
    errors = capsys.readouterr().err
    assert "no.plan" in errors
    assert "cannot be written" in errors
