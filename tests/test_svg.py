"""SVG as text: hostile words stay words, numbers stay short."""

from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from planlint import svg

# What XML can hold at all: no control characters but tab and line ends, no half of a pair.
WORDS = st.text(
    st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from("<>&\"'"),
    max_size=40,
)


@given(WORDS, WORDS)
def test_a_name_never_becomes_markup(text: str, attribute: str) -> None:
    whole = svg.picture(
        10, 10, text, text, [svg.group({"data-part": attribute}, [svg.words(text, (1, 2), 3, attribute)])]
    )
    read = ElementTree.fromstring(whole)
    assert [each.tag.rpartition("}")[2] for each in read.iter()] == ["svg", "title", "desc", "g", "text"]
    assert "".join(read.itertext()) == text * 3
    group = next(each for each in read.iter() if each.tag.endswith("}g"))
    assert group.get("data-part", "") == attribute


@given(st.floats(-1e6, 1e6))
def test_a_number_is_short_and_within_a_hundredth(x: float) -> None:
    text = svg.number(x)
    assert abs(float(text) - x) <= 0.005 + 1e-9
    assert "e" not in text
    assert text != "-0"
    assert not text.endswith(".")


def test_a_whole_number_keeps_its_zeros() -> None:
    assert svg.number(100) == "100"
    assert svg.number(0.004) == "0"


def test_turned_words_turn_about_their_own_place() -> None:
    assert 'transform="rotate(-90 3 4.5)"' in svg.words("height", (3, 4.5), 2, turn=-90)
