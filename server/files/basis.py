"""How a quantity of a house file is known, by its place in the file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel

from server.files.house_file import Entry, HouseFile


def basis_at(file: HouseFile, place: Sequence[str | int]) -> str:
    """One of the bases, or empty where the file holds nothing there or does not say.

    A place may stop at a part; its first quantity is meant (the leakage, however it was given).
    """
    part: Any = file
    for step in place:
        part = _step(part, step)
    if isinstance(part, BaseModel):
        given = (getattr(part, name) for name in type(part).model_fields)
        part = next((each for each in given if isinstance(each, Entry)), None)
    return part.basis or "" if isinstance(part, Entry) else ""


def _step(part: Any, step: str | int) -> Any:
    if isinstance(part, dict):
        return part.get(step)
    if isinstance(part, list):
        return part[step] if isinstance(step, int) and step < len(part) else None
    return getattr(part, str(step), None)
