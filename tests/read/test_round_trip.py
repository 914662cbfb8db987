"""Plans made up at random are read back as they were meant, however they are laid out."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.read.texts import bare, plan_of
from tests.read.writing import joins, parts, placements


@settings(max_examples=60, deadline=None)
@given(st.lists(placements(), min_size=1, max_size=4))
def test_placements_come_back_as_they_were_meant(made: list[tuple[Any, str]]) -> None:
    plan = plan_of("place\n" + "\n".join(text for _, text in made) + "\n")
    assert bare(plan.placements) == bare([record for record, _ in made])


@settings(max_examples=40, deadline=None)
@given(st.tuples(parts("a"), parts("b-2"), parts("top")), st.sampled_from(["\n", "\r\n", "\n\n -- note\n"]))
def test_cut_lists_come_back_as_they_were_meant(made: tuple[tuple[Any, str], ...], end: str) -> None:
    plan = plan_of("parts\n" + end.join(text for _, text in made))
    assert bare(plan.parts) == bare([record for record, _ in made])


@settings(max_examples=40, deadline=None)
@given(st.lists(joins(), min_size=1, max_size=3))
def test_joins_come_back_as_they_were_meant(made: list[tuple[Any, str]]) -> None:
    plan = plan_of("step\n" + "\n".join(text for _, text in made) + "\n")
    assert bare(plan.steps[0].joins) == bare([record for record, _ in made])
