"""The time. Whatever needs it is given a clock, so that a test can move it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]
"""Gives the time now, with its zone."""


def utc_now() -> datetime:
    """The time now, in UTC."""
    return datetime.now(UTC)
