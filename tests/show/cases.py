"""Findings to word and print: a small plan, two rules, and the verdict on them, all made by hand."""

from __future__ import annotations

from planlint.judge.finding import Edit, Finding, Mend, NotChecked, Value, Verdict
from planlint.judge.rule import Rule
from planlint.observe.picture import ScrewPicture, SlatPicture
from planlint.source import Source, Span

IN = 25.4
LENGTH = "length"

PLAN = """\
plan "Allotment bench"
  units in
buy
  25 wood-screws #10 x 3 in stainless
step "Long rails"
  leg to long-rail: 2 wood-screws #10 x 3 in stainless counterbored 1 x 1 in plugged piloted 1/8,
    at 5/8 and 2 3/8 from top and glue waterproof
cover
  seat: seat-slat from front of leg-fl to back of leg-bl, gap 1/8 to 3/4 in
accept
  hole-in-view on back-rail because "stands against the shed"
"""


def rule(
    identity: str,
    title: str,
    says: tuple[object, ...],
    why: str,
    fix: tuple[object, ...] = (),
    caution: str = "",
) -> Rule:
    """A rule of the texts alone; pieces of `says` and `fix` are words or (name, kind)."""

    def saying(pieces: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(p if isinstance(p, str) else (p[0], (), p[1]) for p in pieces)  # type: ignore[index]

    return Rule(
        id=identity,
        chapter="fastenings",
        path=f"rules/fastenings/{identity}.yaml",
        title=title,
        about="fastener",
        where=None,
        lets=(),
        severities=(("stop", ()),),
        reads=(),
        group=(),
        once=False,
        worst=None,
        names=(),
        says=((None, saying(says)),),
        why=((None, (why,)),),
        fix=((None, saying(fix)),) if fix else (),
        mends=(),
        silences=(),
        caution=caution,
    )


SHORT = rule(
    "screw-embedment",
    "A screw that stops short",
    ("The screw passes ", ("through", LENGTH), ", and only ", ("embedment", LENGTH), " is left; it needs ",
     ("needed", LENGTH), "."),
    "Threads hold only where they are, and a short screw pulls out the first time somebody leans back.",
    ("Use ", ("better", LENGTH), " screws."),
)  # fmt: skip
WIDE = rule(
    "gap-too-wide",
    "A gap that is too wide",
    ("The gap at the back is ", ("gap", LENGTH), "; the plan allows ", ("most", LENGTH), "."),
    "A wide gap pinches.",
    ("Set one more slat, ripped to ", ("rip", LENGTH), "."),
    "A child's leg can be caught in a wide gap.",
)
VIEW = rule("hole-in-view", "A hole in view", ("The pocket can be seen.",), "It looks unfinished.")
SPARE = rule("hardware-short", "Too little hardware", ("x",), "y")
RULES = {each.id: each for each in (SHORT, WIDE, VIEW, SPARE)}


def span(words: str, plan: str = PLAN, after: str = "") -> Span:
    """Where these words first stand in the plan, from the words `after` on."""
    start = plan.index(words, plan.index(after))
    return Span(start, start + len(words))


def length(inches: float) -> Value:
    return Value(inches * IN, LENGTH)


def screw_finding() -> Finding:
    """A short screw, eight times, with a mend of two edits."""
    to = length(4)
    return Finding(
        rule="screw-embedment",
        severity="stop",
        span=span("2 wood-screws #10 x 3 in stainless counterbored 1 x 1 in plugged piloted 1/8"),
        values={"through": length(3.5), "embedment": length(0.5), "needed": length(0.7604), "better": to},
        mend=Mend(
            "screw length",
            length(3),
            to,
            (
                Edit(span("3 in", after="step"), to, None, "in"),
                Edit(span("3 in", after="buy"), to, None, "in"),
            ),
        ),
        rows=8,
        names=("leg-fl", "leg-fr", "leg-bl", "leg-br"),
        related=(("bought_length", span("3 in", after="buy")),),
        consequences=2,
        picture=ScrewPicture(IN, 3 * IN, (("leg-fl", 0.0, 3.5 * IN), ("front-rail", 3.5 * IN, 44.5 * IN)), 1),
        said=(0, 0, 0),
    )


def gap_finding() -> Finding:
    """A gap of one slat, with advice."""
    slats = tuple((i * 4 * IN, (i * 4 + 3.5) * IN) for i in range(3))
    return Finding(
        rule="gap-too-wide",
        severity="check",
        span=span("seat: seat-slat from front of leg-fl to back of leg-bl, gap 1/8 to 3/4 in"),
        values={"gap": length(4), "most": length(0.75), "rip": length(3)},
        mend=None,
        rows=1,
        names=("seat",),
        related=(),
        picture=SlatPicture(0.0, 15.5 * IN, slats, 3),
        said=(0, 0, 0),
    )


def accepted_finding() -> Finding:
    return Finding(
        "hole-in-view", "check", span("leg to long-rail"), {}, None, 1, (), (),
        accepted="stands against the shed", said=(0, 0, -1),
    )  # fmt: skip


def verdict() -> Verdict:
    """One of everything."""
    reason, add = "the plan lists no glue", "a `glue` line in `buy`"
    return Verdict(
        (screw_finding(), gap_finding(), accepted_finding()),
        (
            NotChecked("hardware-short", span("buy"), reason, add),
            NotChecked("hole-in-view", span("step"), reason, add),
            NotChecked(
                "gap-too-wide", None, "the seat's slats have no place", "a `place` line for seat-slat"
            ),
        ),
    )


def source(text: str = PLAN) -> Source:
    return Source(text, "samples/allotment-bench.plan")
