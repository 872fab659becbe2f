"""Sorts of columns: typed quantities, aware times, short lists of words."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import JSON, DateTime, Dialect, Float, String, Text, TypeDecorator
from sqlalchemy.orm import Mapped, composite, mapped_column

from server.files.house_file import Entry

KEY = String(32)
NAME = String(200)


class TypedText(TypeDecorator[Any]):
    """What was typed, a text or a plain number, as JSON: `"3 1/2 in"`, `0.25`."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:  # noqa: ARG002
        """As written to the database."""
        return None if value is None else json.dumps(value, ensure_ascii=False)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:  # noqa: ARG002
        """As read from it."""
        return None if value is None else json.loads(value)


class UtcTime(TypeDecorator[datetime]):
    """An aware time in UTC; a naive one is refused."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """As written to the database."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a time without its zone cannot be stored")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """As read from it; SQLite forgets the zone."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


Words = JSON(none_as_null=True)
"""A short list of words that nobody searches by."""


def quantity(name: str) -> Mapped[Entry | None]:
    """Three columns of one quantity: what was typed, its SI value, its basis."""
    return composite(
        Entry,
        mapped_column(f"{name}_typed", TypedText, nullable=True),
        mapped_column(f"{name}_value", Float(53), nullable=True),
        mapped_column(f"{name}_basis", String(8), nullable=True),
        return_none_on=lambda typed, _value, _basis: typed is None,
    )
