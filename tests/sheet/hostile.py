"""A plan in which every free text tries to get out of the page."""

from __future__ import annotations

ATTACKS = (
    "<script>alert(1)</script>",
    "</script><script>alert(2)</script>",
    "</style><img src=x onerror=alert(3)>",
    "]]></svg><svg onload=alert(4)>",
    "' onmouseover='alert(5)",
    "--><iframe src=//example.invalid></iframe>",
    "&lt;b&gt; &#x3c;i&#x3e; </title></textarea></article>",
    "\u202egnp.exe\u2066 \u0007\u001b[31m \u200b",
    "w" * 600,
    "javascript:alert(6)",
    "{{7*7}} ${alert(8)} <base href=//example.invalid/>",
)


def plan(attack: str) -> str:
    """A bench with faults of several kinds, this text in its title, notes, step, reason and unreadable lines."""
    return f"""-- {attack}
plan "{attack}"
  units in
  piece bench
  setting outdoors
  wood western-redcedar
  {attack}
  centre left-right at 24
  seen front, left

buy
  2 of 4x4 @ 48 -- {attack}
  9 of {attack}
  25 wood-screws #10 x 3 in zinc
  1 glue

parts
  leg:  4 of 4x4 @ 16 1/2 -- {attack}
  rail: 2 of 2x4 @ 41
  {attack}: 1 of 2x4 @ 10
  slat<b>: 1 of 2x4 @ 10

place
  leg as leg-fl, leg-fr, leg-bl, leg-br: runs up, left at 0, front at 0, bottom at 0,
    mirrored left-right about 24 and front-back about 8
  rail as front-rail, back-rail: runs left-right, face front, between leg-fl and leg-fr,
    front at front of leg-fl + 1, top at top of leg-fl, mirrored front-back about 8

step "{attack}"
  leg to rail: 2 wood-screws #10 x 3 in zinc from outside counterbored 1 x 1 in and glue
  leg to {attack}: 1 nails

dimensions
  overall: 48 x 16 x 19

accept
  indoor-glue-outdoors because "{attack}"
  {attack} because "x"
"""
