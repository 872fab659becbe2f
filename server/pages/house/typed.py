"""Between what stands in a form field and what the house file writes."""

from __future__ import annotations

import json
import re
from gettext import gettext as _
from typing import Any

from server.files.house_file import BASES
from server.files.schema import Input
from server.units import LONGEST_TEXT

NOT_SAID = ""
_NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?\Z")
_WHOLE_NUMBER = re.compile(r"[+-]?[0-9]{1,9}\Z")


class NotRead(ValueError):
    """What was typed is nothing the field takes; says in words what it takes."""


def raw_value(taken: Input, text: str, basis: str = NOT_SAID) -> Any:
    """What the house file writes for a text; None for an empty one. Raises: NotRead."""
    text = text.strip()
    if not text:
        return None
    value = _READERS[taken.sort](text) if taken.sort in _READERS else text
    if taken.sort == "quantity" and taken.kind == "flow" and _NUMBER.match(text):
        value = f"{text} cfm"  # the trade says a blower door's flow without its unit
    if taken.sort == "twelve shares" and basis in BASES:
        return [{"value": each, "basis": basis} for each in value]
    if taken.has_basis and basis in BASES:
        return {"value": value, "basis": basis}
    return value


def typed_text(raw: Any) -> str:
    """A value of the house file as a field shows it."""
    if raw is None:
        return ""
    if isinstance(raw, dict) and "value" in raw:
        raw = raw["value"]
    if isinstance(raw, bool):
        return "yes" if raw else "no"
    if isinstance(raw, list):
        words = any(isinstance(each, str) for each in raw)
        return (", " if words else " ").join(map(typed_text, raw))
    return str(raw)


def basis_of(raw: Any) -> str:
    """How a value is known; empty where it is not said, or not alike of all months."""
    if isinstance(raw, list):
        bases = {basis_of(each) for each in raw}
        return bases.pop() if len(bases) == 1 else NOT_SAID
    return raw["basis"] if isinstance(raw, dict) and "basis" in raw else NOT_SAID


def seen_text(raw: Any) -> str:
    """A value as a form carries it along, to be compared when it comes back."""
    return json.dumps(raw, sort_keys=True, ensure_ascii=False)


def seen_value(text: str) -> Any:
    """The value of a text that a form carried along; None where it is none."""
    try:
        return json.loads(text)
    except (ValueError, RecursionError):
        return None


def _number(text: str) -> int | float:
    digits = text.removesuffix("%").strip()
    if len(digits) > LONGEST_TEXT or not _NUMBER.match(digits):
        raise NotRead(_("Write a plain number without a unit, like 3 or 0.25."))
    if text.endswith("%"):
        return round(float(digits) / 100, 10)
    return int(digits) if digits.lstrip("+-").isdecimal() else float(digits)


def _whole_number(text: str) -> int:
    if not _WHOLE_NUMBER.match(text):
        raise NotRead(_("Write a whole number, like 3."))
    return int(text)


def _yes_or_no(text: str) -> bool:
    if text not in ("yes", "no"):
        raise NotRead(_("Choose yes or no."))
    return text == "yes"


def _words(text: str) -> list[str]:
    return [word.strip() for word in text.split(",") if word.strip()]


def _share(text: str) -> Any:
    parts = text.replace(";", " ").split()
    if len(parts) == 1:
        return _number(parts[0])
    if len(parts) != 12:
        words = _("Write one share between 0 and 1, or twelve, January to December.")
        raise NotRead(words)
    return [_number(part) for part in parts]


def _twelve_shares(text: str) -> list[int | float]:
    parts = re.sub(r"\s+%", "%", text.replace(";", " ")).split()
    if len(parts) != 12:
        raise NotRead(_("Write twelve shares between 0 and 1, or in %, January to December."))
    return [_number(part) for part in parts]


_READERS = {
    "number": _number,
    "whole number": _whole_number,
    "yes or no": _yes_or_no,
    "words": _words,
    "share": _share,
    "twelve shares": _twelve_shares,
}
