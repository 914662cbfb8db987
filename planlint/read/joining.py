"""The lines of `step`: what is joined to what, and how."""

from __future__ import annotations

from typing import Any, NamedTuple

from planlint.read.amounts import lengths, misfit, size, sizes
from planlint.read.buying import finish_word, line_span
from planlint.read.expressions import Children, Rules, over, word
from planlint.read.lexer import Lexeme
from planlint.read.notation import notation
from planlint.read.plan import Fastening, Hole, Join, Spots
from planlint.source import Span


class More(NamedTuple):
    """A word about a fastening: the field of `Fastening` it fills and the value."""

    field: str
    value: Any
    first: Lexeme
    span: Span


def _join(children: Children) -> Join:
    first, to, second, _, fastenings = children
    return Join(first, second, tuple(fastenings), 0, line_span(to))


def _another(children: Children) -> Children:
    children[0].append(children[-1])  # a comma may stand between
    return children[0]  # type: ignore[no-any-return]


def _fields(said: list[More]) -> dict[str, Any]:
    """What the words about a fastening say; each thing may be said once."""
    found: dict[str, Any] = {}
    for more in said:
        if more.field in found:
            misfit(more.first, notation().words["phrases"]["once"])
        found[more.field] = more.value
    return found


def _counted(children: Children) -> Fastening:
    count, (noun, measure), said = children
    end = said[-1].span.end if said else max(noun.span.end, measure.span.end if measure else 0)
    return Fastening(
        "counted",
        noun,
        int(count.text),
        Span(count.start, count.end),
        measure,
        span=Span(count.start, end),
        **_fields(said),
    )


def _glue(children: Children) -> Fastening:
    glue, said = children
    end = said[-1].span.end if said else glue.end
    return Fastening("glue", word(glue), span=Span(glue.start, end), **_fields(said))


def _housed(children: Children) -> Fastening:
    depth = None if children[1] is None else size(children[1])
    return Fastening("housed", word(children[0]), depth=depth, span=over(children))


def _plain_joint(children: Children) -> Fastening:
    return Fastening(children[0].text, word(children[0]), span=over(children))


def _tenon(children: Children) -> Fastening:
    joint, thickness, _, width, _, length = children
    tenon = None if thickness is None else sizes(thickness, width, length)
    return Fastening("mortise-and-tenon", word(joint), tenon=tenon, span=over(children))  # type: ignore[arg-type]


def _loose(children: Children) -> Fastening:
    loose, _, least, _, most = children
    gap = None if least is None else lengths(least, most)
    return Fastening("loose", word(loose), gap=gap, span=over(children))  # type: ignore[arg-type]


def _hole(children: Children) -> More:
    counterbored, diameter, _, depth = children
    across, deep = sizes(diameter, depth)
    span = over(children)
    return More("counterbore", Hole(across, deep, span), counterbored, span)


def _spots(children: Children) -> More:
    at, distances, _, *where = children
    side = " ".join(lexeme.text for lexeme in where)
    span = over(children)
    return More("spots", Spots(lengths(*distances), side, span), at, span)


def _measure(field: str) -> Any:
    """A word and a size: `piloted 1/8`, `middle 3`."""
    return lambda c: More(field, size(c[-1]), c[-2], Span(c[-2].start, c[-1].end))


RULES: Rules = {
    "join": _join,
    "who": lambda c: c[1],
    "glue": _glue,
    "housed": _housed,
    "plain_joint": _plain_joint,
    "tenon": _tenon,
    "loose": _loose,
    "counted": _counted,
    "waterproof": lambda c: _another([c[0], More("waterproof", True, c[1], over(c[1:]))]),
    "glue_middle": lambda c: _another([c[0], _measure("middle")(c)]),
    "another": _another,
    "driven_from": lambda c: More("from_", word(c[1]), c[0], over(c)),
    "counterbored": _hole,
    "plugged": lambda c: More("plugged", over(c), c[0], over(c)),
    "piloted": _measure("piloted"),
    "slotted": _measure("slotted"),
    "finish": lambda c: More("finish", finish_word(c[0]), c[0], over(c)),
    "spots": _spots,
    "spots_each_end": _spots,
    "through": _measure("through"),
}
