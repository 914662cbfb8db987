"""The rulebook's cache: warm it is quick and needs neither lark nor yaml; broken it is only slow."""

from __future__ import annotations

import os
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from planlint.judge.rulebook import load_rulebook, read_rulebook
from tests.judge.toy import TABLES, rule

ROOT = Path(__file__).parents[2]


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "planlint"


@pytest.fixture
def own_rules(tmp_path: Path) -> Path:
    folder = tmp_path / "rules"
    (folder / "shop").mkdir(parents=True)
    (folder / "shop" / "too-short.yaml").write_text(rule("too-short")[1], "utf-8")
    return folder


def test_what_is_kept_is_what_was_read(cache: Path, own_rules: Path) -> None:
    folders = [str(own_rules)]
    cold = load_rulebook(TABLES, folders)
    assert len(list(cache.iterdir())) == 1
    warm = load_rulebook(TABLES, folders)
    fresh = read_rulebook(TABLES, folders)
    assert cold.rules == warm.rules == fresh.rules
    assert cold.faults == warm.faults == fresh.faults
    assert cold.limits(True) == warm.limits(True) == fresh.limits(True)
    assert "too-short" in warm.rules


def test_a_changed_rule_is_read_anew(cache: Path, own_rules: Path) -> None:
    load_rulebook(TABLES, [str(own_rules)])
    (own_rules / "shop" / "too-short.yaml").write_text(rule("too-short", title="Another")[1], "utf-8")
    assert load_rulebook(TABLES, [str(own_rules)]).rules["too-short"].title == "Another"


def test_a_changed_table_is_checked_against_anew(cache: Path, own_rules: Path) -> None:
    load_rulebook(TABLES, [str(own_rules)])
    board_only = {name: table for name, table in TABLES.items() if name != "fastener"}
    faults = load_rulebook(board_only, [str(own_rules)]).faults
    assert any("no fact table `fastener`" in fault.says for fault in faults)


def test_a_folder_that_can_not_be_written_is_no_trouble(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a-file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "a-file"))
    assert load_rulebook(TABLES).limits(False)["tolerance.fit"] == 25.4 / 32


def test_a_rule_that_stands_in_two_folders_is_a_fault(cache: Path, own_rules: Path) -> None:
    (own_rules / "again").mkdir()
    (own_rules / "again" / "too-short.yaml").write_text(rule("too-short")[1], "utf-8")
    says = [fault.says for fault in load_rulebook(TABLES, [str(own_rules)]).faults]
    assert f"the rule stands in {own_rules}/again/too-short.yaml already" in says


def test_a_warm_cache_needs_neither_lark_nor_yaml_nor_pint(cache: Path) -> None:
    program = textwrap.dedent("""
        import sys
        from planlint.judge.engine import judge
        from planlint.judge.rulebook import load_rulebook
        from planlint.observe.facts import Facts
        from planlint.observe.observe import TABLES
        import planlint.trade.for_rules
        judge(Facts(), load_rulebook(TABLES))
        print([name for name in ("lark", "yaml", "pint") if name in sys.modules])
    """)
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache.parent)}
    for _ in range(2):
        done = subprocess.run(
            [sys.executable, "-c", program],
            cwd=ROOT,
            env=environment,
            capture_output=True,
            text=True,
            check=True,
        )
    assert done.stdout.strip() == "[]"
