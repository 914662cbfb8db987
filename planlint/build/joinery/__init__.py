"""Joinery: the placed parts' contacts, the joints cut into them, and every fastener as a line in space."""

from planlint.build.joinery.joining import join_parts

__all__ = ["join_parts"]
