"""What the command answers its caller with, beside what it writes."""

from __future__ import annotations

SOUND = 0  # nothing reaches the severity asked for
FAULTY = 1  # something does
UNUSABLE = 2  # the input or the call is unusable
