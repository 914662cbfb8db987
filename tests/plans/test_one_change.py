"""One number changed in a sound sample gives the right finding on the right line.

`one_change.yaml` holds the changes. `find` stands once in the plan and becomes `put`; the finding of `rule` must be
on the line that `on` stands in (default: the changed line). All changes are made on sound plans, so a rule that
fires without the change fails in test_samples.py.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from planlint.auditing import audit_text

HERE = Path(__file__).parent
SOUND = HERE.parents[1] / "samples" / "sound"
CHANGES: list[dict[str, Any]] = yaml.safe_load((HERE / "one_change.yaml").read_text(encoding="utf-8"))


def changed(change: dict[str, Any]) -> tuple[str, str]:
    """The plan's text with the change, and the words whose line must be flagged."""
    text = (SOUND / f"{change['plan']}.plan").read_text(encoding="utf-8")
    assert text.count(change["find"]) == 1, f"“{change['find']}” stands {text.count(change['find'])} times"
    return text.replace(change["find"], change["put"]), change.get("on", change["put"])


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: f"{change['plan']}: {change['put']}")
def test_one_wrong_number_is_found_on_its_line(change: dict[str, Any]) -> None:
    text, on = changed(change)
    assert text.count(on) == 1, f"“{on}” stands {text.count(on)} times"
    line = text[: text.index(on)].count("\n") + 1
    audit = audit_text(text)
    found = [
        (audit.source.place(each.span).line, each.severity, each.rule) for each in audit.verdict.findings
    ]
    assert (line, change["severity"], change["rule"]) in found, found


def test_there_are_enough_changes_over_many_rules() -> None:
    assert len(CHANGES) >= 60
    assert len({change["rule"] for change in CHANGES}) >= 25
