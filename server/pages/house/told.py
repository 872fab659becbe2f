"""Differences between versions of a house as lines for people."""

from __future__ import annotations

import re
from collections.abc import Iterable
from gettext import gettext as _

from server.files.differences import ADDED, REMOVED, Difference
from server.pages.house.labels import LABELS
from server.pages.house.typed import U_IP

_PARTS = {
    "components": _("Parts"),
    "spaces": _("Spaces"),
    "assemblies": _("Assemblies"),
    "junctions": _("Junctions"),
    "materials": _("Materials of the house"),
    "strategies": _("Strategies"),
}
_SECTIONS = {
    "air": _("Air"),
    "ventilation": _("Ventilation"),
    "heating": _("Heating"),
    "cooling": _("Cooling"),
    "climate": _("Climate"),
    "prices": _("Price"),
    "carbon": _("Carbon"),
    "defaults": _("Defaults"),
    "indoor_humidity": _("Humidity indoors"),
    "energy_code": _("Energy code"),
    "seen": _("What was seen"),
}
_NAMED_BY_FUEL = ("prices", "carbon")
_SAID_BY_LABEL = ("set_points",)  # their labels say it all
_SILENT = ("layers", "framed", "changes")
_OWN = {
    "relative_humidity": _("Relative humidity"),
    "iecc_zone": _("Climate zone"),
    "station": _("Weather station"),
    "version": _("Version"),
}
_BASIS = re.compile(r" \((measured|document|default|guess)\)")
_NOW = {
    "measured": _("now measured"),
    "document": _("now from a document"),
    "default": _("now a default"),
    "guess": _("now a guess"),
}
_WORDS = {"True": _("yes"), "False": _("no")}


def told(found: Iterable[Difference]) -> list[str]:
    """A line for each difference.

    Where only a word on how a value is known is put beside it, there is no line, unless nothing
    else differs.
    """
    found = list(found)
    return [_line(each) for each in found if not _is_idle(each)] or [_line(e) for e in found]


def _is_idle(each: Difference) -> bool:
    """Whether a value stays, and nobody had said how it is known."""
    before, after = each["before"], each["after"]
    if before is None or after is None or before == after:
        return False
    return _bare(before) == _bare(after) and not _BASIS.search(before)


def _line(each: Difference) -> str:
    place, before, after = _place(each["place"]), each["before"], each["after"]
    if after == ADDED or before == REMOVED:
        return f"{place}: {_(str(after or before))}"
    if before is None and after is None:
        return place
    if before is not None and after is not None and _bare(before) == _bare(after):
        return f"{place}: {_value(_bare(after))}, {_now(after)}"
    return f"{place}: {_value(before)} → {_value(after)}"


def _place(place: str) -> str:
    """Where, by the labels of the fields: "east wall · Faces, degrees from north"."""
    first, *rest = place.split(", ")
    if first in _PARTS:
        return _place_of_part(first, rest)
    if not rest:
        return _(_SECTIONS.get(first) or _label(first))
    if first in _NAMED_BY_FUEL:
        return " · ".join([_(_SECTIONS[first]), ", ".join(rest)])
    *inner, last = rest
    outer = [] if first in _SAID_BY_LABEL else [_section(first)]
    return " · ".join([*outer, *map(_section, inner), _label(last, first)])


def _place_of_part(first: str, rest: list[str]) -> str:
    if not rest:
        return _(_PARTS[first])
    if rest == ["order"]:
        return _("{parts}, order").format(parts=_(_PARTS[first]))
    *outer, last = rest
    kept = [each for at, each in enumerate(outer) if at == 0 or each not in _SILENT]
    if not outer:
        return last  # the part itself
    return " · ".join([", ".join(kept), _label(last)])


def _section(name: str) -> str:
    return _(_SECTIONS[name]) if name in _SECTIONS else _label(name)


def _label(name: str, section: str = "") -> str:
    label = _OWN.get(name) or LABELS.get(f"{section}/{name}") or LABELS.get(name)
    if label:
        return _(label)
    return name.replace("_", " ").capitalize() if "_" in name else name


def _bare(text: str) -> str:
    """A text without words on how its values are known."""
    return _BASIS.sub("", text)


def _now(text: str) -> str:
    """How a value is known now."""
    known = set(_BASIS.findall(text))
    if len(known) != 1:
        return _("known otherwise") if known else _("no longer said how it is known")
    return _(_NOW[known.pop()])


def _value(text: str | None) -> str:
    if text is None:
        return _("nothing")
    each = text.split(", ")
    if len(each) == 12 and len(set(each)) == 1:
        text = _("{value}, all year").format(value=each[0])
    return _(_WORDS[text]) if text in _WORDS else text.replace(U_IP, "Btu/(h·ft²·°F)")
