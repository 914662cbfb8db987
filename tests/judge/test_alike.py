"""Rows that are alike are judged once; what is found must still be told of every one, in order."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planlint.judge.alike import alike, reading
from planlint.observe.facts import Row
from planlint.source import Span

VALUES = st.fixed_dictionaries({"a": st.integers(0, 2), "b": st.booleans(), "c": st.integers(0, 99)})


@given(st.lists(VALUES))
def test_a_row_gets_the_outcome_of_another_that_differs_in_what_a_rule_reads(
    values: list[dict[str, object]],
) -> None:
    rows = [Row(one, Span(i, i)) for i, one in enumerate(values)]
    found = alike(rows, reading(("a", "b")))
    assert found.rows == rows
    samples = [found.samples[kind] for kind in found.kinds]
    assert [(one.values["a"], one.values["b"]) for one in samples] == [(one["a"], one["b"]) for one in values]
    assert len(found.samples) == len({(one["a"], one["b"]) for one in values})
