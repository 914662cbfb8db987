"""The same plan written in another order, or saved by another editor, gives the same findings.

A plan is copied from a sheet in whatever order the sheet has; an audit that hung on it would tell two readers of one
drawing two things. Steps keep their order, because it is the order of work.
"""

import random
from collections import Counter
from pathlib import Path

import pytest

from planlint.auditing import Audit, audit_text, rules

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*/*.plan"))


def sections(text: str) -> list[list[str]]:
    """Each section as its lines: the head, then what is indented below it; what stands before the first is left out."""
    found: list[list[str]] = []
    for line in text.splitlines():
        if line and line[0] not in " -":
            found.append([line])
        elif found and line:
            found[-1].append(line)
    return found


def entries(lines: list[str]) -> list[list[str]]:
    """Each entry with the notes above it and the lines that it goes on in."""
    found: list[list[str]] = []
    open_entry = False
    for line in lines:
        words = line.split("--")[0].rstrip()
        if open_entry:
            found[-1].append(line)
        else:
            found.append([line])
        open_entry = words.endswith(",") or not words
    return found


def reordered(text: str, chance: random.Random, *, entries_too: bool) -> str:
    """Sections and entries in another order; steps, and what is done in them, in the order of work."""
    found = sections(text)
    steps = iter([section for section in found if section[0].startswith("step")])
    chance.shuffle(found)
    told: list[str] = []
    for section in found:
        if section[0].startswith("step"):
            told += next(steps)
        else:
            within = entries(section[1:])
            if entries_too:
                chance.shuffle(within)
            told += [section[0], *[line for entry in within for line in entry]]
    return "\n".join(told) + "\n"


def words_of(audit: Audit) -> Counter[tuple[str, str, int, str]]:
    """What is found, how often, and on which words; lines and columns change with the order.

    What is told once a plan is told of the first that has it, so there the words change too.
    """
    book = rules()
    return Counter(
        (
            finding.severity,
            finding.rule,
            finding.rows,
            ""
            if book.rules[finding.rule].once
            else " ".join(audit.source.text[slice(*finding.span)].split()),
        )
        for finding in audit.verdict.findings
    )


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_order_of_sections_and_entries_does_not_matter(path: Path, seed: int) -> None:
    text = path.read_text(encoding="utf-8")
    before = audit_text(text)
    named_twice = any(
        finding.rule == "name-twice" for finding in before.verdict.findings
    )  # the first is taken
    turned = reordered(text, random.Random(seed), entries_too=not named_twice)
    assert sorted(turned.split()) == sorted(" ".join(map(" ".join, sections(text))).split())
    assert words_of(audit_text(turned)) == words_of(before)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_line_ends_of_another_system_change_nothing(path: Path) -> None:
    """CRLF once moved every line number behind it, and hid a comma at a line's end."""
    text = path.read_text(encoding="utf-8")
    before, after = audit_text(text), audit_text(text.replace("\n", "\r\n"))
    lines = [
        [(*audit.source.place(f.span), f.severity, f.rule, f.names) for f in audit.verdict.findings]
        for audit in (before, after)
    ]
    assert lines[0] == lines[1]
