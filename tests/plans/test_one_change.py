"""One number changed in a sound sample gives the right finding on the right line.

`one_change.yaml` holds the changes. `find` stands once in the plan and becomes `put`; the finding of `rule` must be
on the line in which the words of `line` stand (default: the changed words). All changes are made on sound plans, so
a rule that fires without the change fails in test_samples.py.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from planlint.auditing import audit_text

HERE = Path(__file__).parent
SOUND = HERE.parents[1] / "samples" / "sound"
RULES = HERE.parents[1] / "rules"
CHANGES: list[dict[str, Any]] = yaml.safe_load((HERE / "one_change.yaml").read_text(encoding="utf-8"))


def changed(change: dict[str, Any]) -> tuple[str, str]:
    """The plan's text with the change, and the words whose line must be flagged."""
    text = (SOUND / f"{change['plan']}.plan").read_text(encoding="utf-8")
    assert text.count(change["find"]) == 1, f"“{change['find']}” stands {text.count(change['find'])} times"
    return text.replace(change["find"], change["put"]), change.get("line", change["put"])


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


def test_there_are_enough_changes_over_many_rules_of_every_chapter() -> None:
    changed_for = {change["rule"] for change in CHANGES}
    assert len(CHANGES) >= 120
    assert len(changed_for) >= 45
    for chapter in ("reading", "fit", "fastenings", "cover", "stock", "looks", "movement"):
        assert changed_for & {path.stem for path in (RULES / chapter).glob("*.yaml")}, chapter
