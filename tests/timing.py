"""How long something takes by itself: coverage slows our own code several times, a library in C not at all."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from typing import TypeVar

Made = TypeVar("Made")


def timed(make: Callable[[], Made]) -> tuple[Made, float]:
    """What it makes, and the processor seconds it takes while nothing is traced."""
    traced = sys.gettrace()
    sys.settrace(None)
    try:
        start = time.process_time()
        made = make()
        return made, time.process_time() - start
    finally:
        sys.settrace(traced)
