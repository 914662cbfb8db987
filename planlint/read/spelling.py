"""The plain form of a plan's text, character for character, so that every offset stays true.

Typographic signs, capitals and odd blanks become what a keyboard has. What is shown or kept as written
(titles, reasons) is taken from the original text.
"""

from __future__ import annotations

import re

_SAME_LENGTH = {
    '"': "\u201c\u201d\u201e\u201f\u2033\u00ab\u00bb",
    "'": "\u2018\u2019\u201a\u201b\u2032\u00b4",
    "x": "\u00d7\u2715\u2716",
    "-": "\u2010\u2011\u2012\u2013\u2212",
    "/": "\u2044\u2215",
    "°": "\u00ba\u02da",
    " ": "\u0085\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009"
    "\u200a\u200b\u202f\u205f\u2028\u2029\u3000\ufeff",
}
_PLAIN = {odd: plain for plain, odds in _SAME_LENGTH.items() for odd in odds}
_NOT_ASCII = re.compile(r"[^\x00-\x7f]")


def plain(text: str) -> str:
    """The text with every sign in its plain form; as long as the text."""
    if not text.isascii():
        text = _NOT_ASCII.sub(_plain_sign, text)
    text = text.lower()
    for blank in "\t\r\n\v\f":
        text = text.replace(blank, " ")
    return text


def _plain_sign(found: re.Match[str]) -> str:
    sign = found[0]
    low = sign.lower()
    # The one capital that grows when it is made small is the dotted I.
    return _PLAIN.get(sign) or (low if len(low) == 1 else low[0])
