"""What `mend` and `tidy` share: a plan's new text is shown, given as a patch or whole, and kept when asked."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable

from planlint.commands.exit_codes import FAULTY, SOUND, UNUSABLE
from planlint.commands.keeping import exactly, keep
from planlint.source import Source


def changed(wanted: argparse.Namespace, old: Source, new: str, show: Callable[[], None]) -> int:
    """Keep the new text if `wanted.write`, then answer in `wanted.form`; `show` is the page for a reader.

    FAULTY where something is to be changed and was not.
    """
    if wanted.write and new != old.text:
        why_not = keep(old.path, new, instead_of=old.text)
        if why_not is not None:
            print(f"planlint: {why_not}", file=sys.stderr)
            return UNUSABLE
    if wanted.form == "diff":
        from planlint.mending.patch import patch

        exactly(patch(old.path, old.text, new))
    elif wanted.form == "plan":
        exactly(new)
    else:
        show()
    return SOUND if wanted.write or new == old.text else FAULTY
