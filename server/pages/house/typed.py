"""Between what stands in a form field and what the house file writes."""

from __future__ import annotations

import json
import re
from gettext import gettext as _
from typing import Any

from server.files.house_file import BASES
from server.files.schema import Input
from server.formatting import MONTHS
from server.units import LONGEST_TEXT, System

NOT_SAID = ""
DRIEST = 0.01  # relative humidity
U_IP = "Btu/(hour*ft^2*delta_degF)"
HUMIDITY_ALLOWED = _("1 to 100 %, or 0.01 to 1")
U_LIKE = _("like U-0.060 or 0.34 W/(m²·K)")
_BETWEEN = re.compile(r"[\s,;]+")
_DECIMAL_COMMA = re.compile(r"(?<![\d.])0,\d")
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


def humidities(text: str) -> list[int | float]:
    """Twelve shares of what may be typed for them: shares, per cent, one for the year.

    Raises: NotRead, with every month that cannot be.
    """
    parts = [part for part in _BETWEEN.split(re.sub(r"\s+%", "%", text)) if part]
    if len(parts) not in (1, 12):
        if _DECIMAL_COMMA.search(text):
            raise NotRead(_("Write 0.45, not 0,45: a comma stands between two months."))
        words = _("Write twelve figures, January to December, or one for all year; read were {n}.")
        raise NotRead(words.format(n=len(parts)))
    shares = [_humidity(part) for part in parts]
    wrong = [
        (_(MONTHS[month]) if len(parts) > 1 else _("All year"), parts[month])
        for month, share in enumerate(shares)
        if share is None
    ]
    if wrong:
        words = _("{month}: “{text}” is not {allowed}.")
        allowed = _(HUMIDITY_ALLOWED)
        raise NotRead(
            " ".join(
                words.format(month=month, text=part[:20], allowed=allowed) for month, part in wrong
            )
        )
    read = [share for share in shares if share is not None]
    return read * 12 if len(read) == 1 else read


def _humidity(text: str) -> int | float | None:
    """A share; a figure above 1 is per cent. None where it is neither."""
    try:
        share = _number(text)
    except NotRead:
        return None
    if not text.endswith("%") and 1 < share <= 100:
        share = round(share / 100, 10)
    return share if DRIEST <= share <= 1 else None


def limit_text(text: str, units: System) -> str:
    """A limit of U as it is read: a plain number is inch-pound for who reads inch-pound.

    Raises: NotRead.
    """
    text = text.strip()
    if not _NUMBER.match(text):
        return text
    if units != "ip":
        raise NotRead(_("A U needs its unit: write it {like}.").format(like=_(U_LIKE)))
    return f"{text} {U_IP}"


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


_READERS = {
    "number": _number,
    "whole number": _whole_number,
    "yes or no": _yes_or_no,
    "words": _words,
    "share": _share,
    "twelve shares": humidities,
}
