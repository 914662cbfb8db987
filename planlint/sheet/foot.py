"""The foot of the page: what planlint promises, which plan it read, and which planlint read it."""

from __future__ import annotations

from pathlib import PurePath

from planlint import __version__
from planlint.auditing import Audit
from planlint.sheet.html import Html, element, paragraph

PROMISES = (
    "planlint tells you only what follows from the plan’s own figures, the trade’s tables and the limits of its rules, "
    "each with its source. It never guesses: what the plan does not say is reported as not checked. "
    "It never complains about taste.",
    "A sheet like this does not replace your own eyes, local building codes, or a licensed professional where people’s "
    "safety depends on the work. Measure the wood you have before you cut it.",
)


def foot(audit: Audit) -> Html:
    """The foot, a landmark of its own."""
    name = PurePath(audit.source.path).name
    told = f"Made from {name} by planlint {__version__}."
    return element("footer", {}, *(paragraph(words) for words in PROMISES), paragraph(told))
