"""What changed between two offers of one house, figure by figure."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from gettext import gettext as _
from typing import Any

from server.formatting import NOT_KNOWN, number_text, unit_text
from server.offers.offer import Content
from server.units import System

# name of the figure, kind of quantity, where it stands in an option
_FIGURES: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("Installed cost", "money", ("cost", "total_usd")),
    ("Fuel bill a year", "money", ("fuel_cost_usd",)),
    ("Saving a year", "money", ("saving_usd",)),
    ("Heating need a year", "energy", ("heating_j",)),
    ("Cooling need a year", "energy", ("cooling_j",)),
    ("Carbon dioxide a year", "carbon_mass", ("carbon_kg",)),
    ("Carbon of making the materials", "carbon_mass", ("embodied", "kg")),
    ("Walls grow outward by", "thickness", ("wall_growth",)),
    ("Air changes at 50 Pa", "air_change_rate", ("ach50",)),
    ("Ventilation", "flow", ("ventilation_flow",)),
)


def what_changed(before: Content, after: Content) -> list[dict[str, str]]:
    """Every figure that reads differently: option, what, before and after, in words.

    Both are told in the units of the later offer. An option is known by the contractor's name for
    it, so one that was renamed is one gone and one new.
    """
    units: System = after["units"]
    old = {option["own_name"]: option for option in before["options"]}
    new = {option["own_name"]: option for option in after["options"]}
    found = [
        _line(option["name"], _("Option"), _("offered"), _("no longer offered"))
        for name, option in old.items()
        if name not in new
    ]
    for name, option in new.items():
        if name not in old:
            found.append(_line(option["name"], _("Option"), _("not offered"), _("offered")))
        else:
            found += _of_option(old[name], option, units)
    return [
        *found,
        *_of_findings(before, after),
        *_of_assemblies(before, after, units),
        *_of_the_whole(before, after),
    ]


def _of_findings(before: Content, after: Content) -> Iterator[dict[str, str]]:
    """Findings that are graver or milder than they were; offers before format 3 judged nothing."""
    if "findings" not in before or "findings" not in after:
        return
    old, new = _severities(before), _severities(after)
    names = {option["own_name"]: option["name"] for option in after["options"]}
    known = {option["own_name"] for option in before["options"]}
    for own_name, code in dict.fromkeys([*old, *new]):
        if own_name in names and own_name in known:
            title, was = old.get((own_name, code), ("", NOT_KNOWN))
            title, now = new.get((own_name, code), (title, NOT_KNOWN))
            if was != now:
                yield _line(names[own_name], title, was, now)


def _severities(content: Content) -> dict[tuple[str | None, str], tuple[str, str]]:
    """Title and severity of every finding of every option."""
    own_names = [option["own_name"] for option in content["options"]]
    return {
        (own_name, row["code"]): (row["title"], severity or NOT_KNOWN)
        for row in content["findings"]
        for own_name, severity in zip(own_names, row["cell_names"], strict=True)
    }


def _line(option: str, what: str, before: str, after: str) -> dict[str, str]:
    return {"option": option, "what": what, "before": before, "after": after}


def _of_option(before: Content, after: Content, units: System) -> Iterator[dict[str, str]]:
    for name, kind, steps in _FIGURES:
        pair = _text(_at(before, steps), kind, units), _text(_at(after, steps), kind, units)
        if pair[0] != pair[1]:
            yield _line(after["name"], _(name), *pair)
    spaces = ", ".join(before["inside_spaces"]), ", ".join(after["inside_spaces"])
    if spaces[0] != spaces[1]:
        yield _line(after["name"], _("Inside the insulation"), *spaces)
    if (before["work"], before["whole_work"]) != (after["work"], after["whole_work"]):
        yield _line(after["name"], _("Work at the house"), _("as sent before"), _("changed"))


def _of_assemblies(before: Content, after: Content, units: System) -> Iterator[dict[str, str]]:
    old = {(each["name"], each["kind"]): each for each in before["assemblies"]}
    places = {option["own_name"]: index for index, option in enumerate(before["options"])}
    for each in after["assemblies"]:
        was = old.get((each["name"], each["kind"]))
        if was is None:
            continue
        for index, option in enumerate(after["options"]):
            place = places.get(option["own_name"])
            if place is None:
                continue
            pair = [
                _text(of["resistance"], "resistance", units)
                for of in (was["by_option"][place], each["by_option"][index])
            ]
            if pair[0] != pair[1]:
                what = _("Real R of {name}").format(name=each["name"])
                yield _line(option["name"], what, *pair)


def _of_the_whole(before: Content, after: Content) -> Iterator[dict[str, str]]:
    named: tuple[tuple[str, Callable[[Content], Any]], ...] = (
        (_("Prices"), lambda content: content["versions"]["price_book"]),
        (_("Method of the figures"), lambda content: content["versions"]["method"]),
        (_("Local defaults"), lambda content: content["versions"]["region"]),
    )
    for what, read in named:
        if read(before) != read(after):
            yield _line(_("The whole offer"), what, _version(read(before)), _version(read(after)))
    climates = before["house"]["climate"], after["house"]["climate"]
    if climates[0] != climates[1]:
        yield _line(_("The whole offer"), _("Climate"), *climates)


def _version(version: Any) -> str:
    return _("none") if version is None else _("version {version}").format(version=version)


def _at(option: Content, steps: tuple[str, ...]) -> float | None:
    value: Any = option
    for step in steps:
        value = None if value is None else value[step]
    return None if value is None else float(value)


def _text(value: float | None, kind: str, units: System) -> str:
    text = number_text(value, kind, units)
    return text if text == NOT_KNOWN else f"{text} {unit_text(kind, units)}"
