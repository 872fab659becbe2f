"""What the document of a region writes for the text of a field."""

from __future__ import annotations

from typing import Any

from server.files.house_file import BASES


def raw_of(text: str, basis: str, *, plain: bool = False) -> Any:
    """A quantity with its basis where it is said. plain: a number without a unit."""
    typed = _number(text) if plain else text
    return {"value": typed, "basis": basis} if basis in BASES else typed


def _number(text: str) -> str | float:
    """A plain number or a share in %; the text itself where it is none, to be refused later."""
    digits = text.removesuffix("%").strip()
    if len(digits) >= 40 or not digits.isascii() or "_" in digits:
        return text
    try:
        return round(float(digits) / 100, 10) if text.endswith("%") else float(digits)
    except ValueError:
        return text
