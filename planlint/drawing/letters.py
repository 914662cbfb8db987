"""How wide a text is on paper: the widths of the letters of the drawings' typeface.

Widths in thousandths of the size, of Helvetica, as its font metrics give them (from memory); Arial's and Liberation
Sans's are the same by design. A page may use another typeface: so nothing is placed closer than `SPARE` allows.
"""

from __future__ import annotations

import unicodedata

ASCENT, DESCENT = 0.76, 0.22  # of the size: how far letters, and brackets, reach over and under the baseline
SPARE = 1.03  # bold letters and other typefaces are a little wider

_WIDTHS = {
    222: "ijl'",
    278: "ftI ./,:;!\\[]|",
    333: '()-r`"“”',
    389: "*",
    500: "ckJsvxyz",
    556: "0123456789abdeghnopquL?#$_",
    584: "+=<>~×",
    611: "FTZ",
    667: "ABEKPSVXY&",
    722: "CDHNRUw",
    778: "GOQ",
    833: "mM",
    889: "%",
    944: "W",
    1000: "…—",
    1015: "@",
}
_OF = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
_OTHER, _WIDE = 700, 1000  # letters that the table does not have: accented and Greek; those of East Asia


def width(text: str, size: float) -> float:
    """The text's width in the size's unit (mm on paper), rather too wide than too narrow."""
    return sum([_letter(one) for one in text]) / 1000 * size * SPARE


def shortened(text: str, room: float, size: float) -> str:
    """The text, its end cut off with `…` where it is wider than `room`."""
    if width(text, size) <= room:
        return text
    kept = text
    while kept and width(kept + "…", size) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def lines(text: str, room: float, size: float) -> list[str]:
    """The text in lines no wider than `room`; a word that is wider by itself is shortened."""
    found: list[str] = []
    for word in text.split():
        longer = f"{found[-1]} {word}" if found else word
        if found and width(longer, size) <= room:
            found[-1] = longer
        else:
            found.append(shortened(word, room, size))
    return found


def _letter(letter: str) -> int:
    known = _OF.get(letter)
    if known is not None:
        return known
    if unicodedata.combining(letter):
        return 0
    return _WIDE if unicodedata.east_asian_width(letter) in "WF" else _OTHER
