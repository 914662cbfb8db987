"""planlint audits furniture build plans before the wood is bought."""

from __future__ import annotations

__version__ = "0.1.0"
