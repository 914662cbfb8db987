"""Short ways to read a piece of a plan in a test."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from planlint.read.plan import Plan, Trouble
from planlint.read.reader import read
from planlint.source import Source, Span

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "grammar" / "NOTATION.md").read_text("utf-8")
HEADING = 'plan "Test"\n  units in\n'


def examples() -> list[str]:
    """Every plan on the notation's page, made whole."""
    blocks = re.findall(r"```plan\n(.*?)```", PAGE, re.DOTALL)
    return [block if block.startswith("plan") else HEADING + block for block in blocks]


def samples() -> list[str]:
    """Whole plans: the page's examples and the samples."""
    return [
        *examples(),
        *(path.read_text("utf-8") for path in sorted((ROOT / "samples" / "sound").glob("*.plan"))),
    ]


def plan_of(text: str) -> Plan:
    """A plan that must read without trouble; a missing `plan` section is put in front."""
    text = text if re.search(r"(?m)^\ufeff?plan", text.replace("\r", "\n")) else HEADING + text
    plan, troubles = read(Source(text))
    assert troubles == [], troubles
    return plan


def entry(section: str, line: str) -> Any:
    """What one entry says."""
    plan = plan_of(f"{section}\n  {line}\n")
    if section == "step":
        (step,) = plan.steps
        (found,) = step.joins
        return found
    lists = {
        "buy": "purchases",
        "place": "placements",
        "cover": "covers",
        "load": "loads",
        "accept": "accepts",
    }
    (found,) = getattr(plan, lists.get(section, section))
    return found


def troubles_of(text: str) -> list[tuple[Trouble, str]]:
    """The troubles of a text, each with the words its span points at."""
    source = Source(text if text.startswith("plan") else HEADING + text)
    return [(trouble, source.text[slice(*trouble.span)]) for trouble in read(source)[1]]


def trouble_of(section: str, line: str) -> tuple[Trouble, str]:
    """The one trouble of one entry."""
    (found,) = troubles_of(f"{section}\n  {line}\n")
    return found


def bare(value: Any) -> Any:
    """A record with its spans left out, as plain lists: two readings of one plan can be compared."""
    if isinstance(value, Span):
        return "here"  # a word that says itself, like `plugged`
    if hasattr(value, "_fields"):
        return [
            type(value).__name__,
            *(bare(getattr(value, name)) for name in value._fields if "span" not in name),
        ]
    if hasattr(value, "__slots__") and not isinstance(value, (str, int, float)):
        return [bare(getattr(value, name)) for name in value.__slots__ if "span" not in name]
    if isinstance(value, (list, tuple)):
        return [bare(each) for each in value]
    if isinstance(value, dict):
        return {key: bare(each) for key, each in value.items() if not hasattr(each, "start")}
    return value


def said(plan: Plan) -> list[Any]:
    """All that a plan says, without spans."""
    return [
        bare(getattr(plan, name))
        for name in ("heading", "purchases", "parts", "placements", "steps", "covers", "dimensions", "loads")
    ] + [bare(plan.carry), bare(plan.accepts)]
