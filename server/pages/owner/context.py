"""What an owner's page shows: the frozen figures as texts, nothing computed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from gettext import gettext as _
from typing import Any

from server.formatting import NOT_KNOWN, number_text, unit_text
from server.offers.offer import Content
from server.pages.owner.forms import AnswerForm, choices
from server.storage.offers import OpenOffer
from server.units import System

LONGEST_YEARS = 200  # longer than anybody waits
REASON_NAMES = {
    "due anyway": "Due anyway, insulated or not",
    "insulation": "Insulation itself",
    "only because of insulation": "Needed only because of the insulation",
}


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a table: a text for each column. hint: a plain line below its name."""

    name: str
    unit: str
    texts: tuple[str, ...]
    strong: bool = False
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Options side by side; on a phone every line becomes a block."""

    title: str
    columns: tuple[str, ...]
    lines: tuple[Line, ...]


def owner_context(offer: OpenOffer, form: AnswerForm) -> dict[str, Any]:
    """The page of an offer of format 1."""
    content = offer.content
    return {
        "offer": offer,
        "content": content,
        "units": content["units"],
        "form": form,
        "choices": choices(content),
        "cost": _cost_table(content),
        "gains": _gains_table(content),
        "heat": _heat_table(content),
        "resistances": _resistance_table(content),
        "payback": _payback_table(content),
        "guesses": [each for each in content["unmeasured"] if each["basis"] == "guess"],
        "usual": sum(each["basis"] == "default" for each in content["unmeasured"]),
        "reasons": REASON_NAMES,
    }


def _names(options: Sequence[Content]) -> tuple[str, ...]:
    return tuple(option["name"] for option in options)


def _line(
    name: str,
    kind: str,
    units: System,
    options: Sequence[Content],
    read: Callable[[Content], float | None],
    *,
    strong: bool = False,
    hint: str = "",
) -> Line:
    texts = tuple(number_text(read(option), kind, units) for option in options)
    return Line(name, unit_text(kind, units), texts, strong, hint)


def _cost_table(content: Content) -> Table:
    options, units = content["options"][1:], content["units"]
    lines = [_line(_("Installed, all together"), "money", units, options, _total_cost, strong=True)]
    for index, reason in enumerate(REASON_NAMES):
        lines.append(_line(_(REASON_NAMES[reason]), "money", units, options, _cost_reader(index)))
    return Table(_("What the options cost"), _names(options), tuple(lines))


def _total_cost(option: Content) -> float:
    total: float = option["cost"]["total_usd"]
    return total


def _cost_reader(index: int) -> Callable[[Content], float]:
    def read(option: Content) -> float:
        dollars: float = option["cost"]["by_reason"][index]["usd"]
        return dollars

    return read


def _reader(name: str) -> Callable[[Content], float | None]:
    def read(option: Content) -> float | None:
        figure: float | None = option[name]
        return figure

    return read


def _gains_table(content: Content) -> Table:
    options, units = content["options"], content["units"]
    bill, carbon = _reader("fuel_cost_usd"), _reader("carbon_kg")
    lines = [
        *_surface_lines(content),
        _line(_("Heating and cooling bill a year"), "money", units, options, bill, strong=True),
        _line(_("… that is less by"), "money", units, options, _reader("saving_usd")),
        _line(_("Heat the rooms need a year"), "energy", units, options, _reader("heating_j")),
        _line(_("Cooling the rooms need a year"), "energy", units, options, _reader("cooling_j")),
        _line(_("Carbon dioxide a year"), "carbon_mass", units, options, carbon),
        _line(
            _("Carbon of making the materials, once"),
            "carbon_mass",
            units,
            options,
            lambda option: option["embodied"]["kg"] if option["embodied"] else 0.0,
        ),
        _tightness(content),
        _line(_("Fresh air by fan"), "flow", units, options, _reader("ventilation_flow")),
        _line(_("Walls grow outward by"), "thickness", units, options, _reader("wall_growth")),
        Line(
            _("Rooms and spaces inside the insulation"),
            "",
            tuple(", ".join(option["inside_spaces"]) for option in options),
            hint=_("where the insulation runs"),
        ),
    ]
    return Table(_("What you get"), _names(options), tuple(lines))


def _tightness(content: Content) -> Line:
    hint = _("air changes at 50 Pa in a blower-door test")
    if content["air_is_guessed"]:
        hint = _("air changes at 50 Pa in a blower-door test; as it is now: a guess, not tested")
    options, units = content["options"], content["units"]
    return _line(_("Airtightness"), "air_change_rate", units, options, _reader("ach50"), hint=hint)


def _surface_lines(content: Content) -> list[Line]:
    """The inside surfaces on the design night, of what stands against outdoors now."""
    lines = []
    for assembly in content["assemblies"]:
        surfaces = [each["surface_temperature"] for each in assembly["by_option"]]
        if surfaces[0] is not None:
            name = _("Inside surface: {name}").format(name=assembly["name"])
            lines.append(_assembly_line(name, "temperature", content, assembly, surfaces))
    return lines


def _assembly_line(
    name: str, kind: str, content: Content, assembly: Content, figures: Sequence[float | None]
) -> Line:
    units = content["units"]
    texts = tuple(
        _("indoors") if each["indoors"] else number_text(figure, kind, units)
        for each, figure in zip(assembly["by_option"], figures, strict=True)
    )
    hint = _("rests on a guess") if assembly["guessed"] else ""
    return Line(name, unit_text(kind, units), texts, hint=hint)


def _heat_table(content: Content) -> Table:
    options, units = content["options"], content["units"]
    lines = [
        _line(
            _(part["name"]),
            "energy",
            units,
            options,
            lambda option, key=part["key"]: option["heat_by_part_j"][key],  # type: ignore[misc]
        )
        for part in content["parts"]
    ]
    whole = _line(_("All parts"), "energy", units, options, _reader("heating_j"), strong=True)
    return Table(_("Heat by part of the house"), _names(options), (*lines, whole))


def _resistance_table(content: Content) -> Table:
    lines = []
    for assembly in content["assemblies"]:
        name, kind = assembly["name"], assembly["kind"]
        if kind not in name.lower():
            name = f"{name} ({kind})"
        figures = [each["resistance"] for each in assembly["by_option"]]
        lines.append(_assembly_line(name, "resistance", content, assembly, figures))
    return Table(_("Real R"), _names(content["options"]), tuple(lines))


def _payback_table(content: Content) -> Table:
    options = content["options"][1:]

    def of(group: str, name: str) -> tuple[str, ...]:
        return tuple(
            NOT_KNOWN if option[group] is None else _years(option[group][name])
            for option in options
        )

    return Table(
        _("Payback"),
        _names(options),
        (
            Line(_("Bills pay back the whole price in"), "", of("payback", "whole_years")),
            Line(_("… the price beyond what is due anyway"), "", of("payback", "extra_years")),
            Line(_("Carbon of the materials is saved in"), "", of("embodied", "years_to_repay")),
        ),
    )


def _years(years: float | None) -> str:
    if years is None or years > LONGEST_YEARS:
        return _("never")
    if years < 10:
        return _("{years:.1f} years").format(years=years)
    return _("{years:.0f} years").format(years=years)
