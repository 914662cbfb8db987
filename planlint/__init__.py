"""planlint audits furniture build plans before the wood is bought.

>>> import planlint
>>> planlint.audit('plan "Step"\\nparts\\n  side: 2 of 2x4').findings[0].rule
'unreadable'
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planlint.api import PlanAudit

__version__ = "0.1.0"
__all__ = ["__version__", "audit"]


def audit(text: str) -> PlanAudit:
    """Audit a plan given as text: findings by line, with numbers, reasons and mends; see `planlint.api.PlanAudit`.

    Nothing is imported until it is called. A mistake in the plan is a finding, never an exception.
    """
    from planlint.api import audit as audit_plan

    return audit_plan(text)
