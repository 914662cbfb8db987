"""What a rule can speak of: `python -m tests.rules.columns` lists the fact tables and the functions.

With the names of tables it lists their columns.
"""

from __future__ import annotations

import sys

from planlint.judge.functions import FUNCTIONS
from tests.rules.files import tables


def main(names: list[str]) -> None:
    for name in names:
        table = tables()[name]
        print(f"{name}: one row is {table.one_row_is}")
        for column, about in table.columns.items():
            print(f"  {column:24} {about.kind:9} {about.means}")
        for span, means in table.spans.items():
            print(f"  {span:24} {'span':9} {means}")
    if not names:
        for name, table in sorted(tables().items()):
            print(f"{name:24} one row is {table.one_row_is}")
        print()
        for name, function in FUNCTIONS.items():
            doc = (function.call.__doc__ or "").strip().splitlines()
            print(f"{name}({', '.join(function.takes)}) gives a {function.gives}: {doc[0] if doc else ''}")


if __name__ == "__main__":
    main(sys.argv[1:])
