"""What an owner's page shows: the frozen figures as texts, nothing computed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from gettext import gettext as _
from typing import Any

from server.formatting import NOT_KNOWN, number_text, unit_text
from server.offers.offer import Content
from server.pages.owner.forms import AnswerForm, choices
from server.storage.offers import OpenOffer
from server.units import System

LOUD = ("stop", "mend")
LONGEST_YEARS = 200  # longer than anybody waits
REASON_NAMES = {
    "due anyway": "Due anyway, insulated or not",
    "insulation": "Insulation itself",
    "only because of insulation": "Needed only because of the insulation",
}


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a table: a text for each column. hint: a plain line below its name.

    working: frozen blocks that explain it; none in offers of format 1.
    """

    name: str
    unit: str
    texts: tuple[str, ...]
    strong: bool = False
    hint: str = ""
    working: Sequence[Content] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """Options side by side; on a phone every line becomes a block."""

    title: str
    columns: tuple[str, ...]
    lines: tuple[Line, ...]


def owner_context(offer: OpenOffer, form: AnswerForm) -> dict[str, Any]:
    """The page of an offer: of format 1, of 2 with its working, of 3 with its findings too."""
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
        "findings": content.get("findings"),
        "loudest": _loudest(content),
        "stops": _stops(content),
    }


Named = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Loudest:
    """Codes and titles of what stops an option or has to be mended.

    everywhere: of every option and of the house as it is. by_option: the others, by severity.
    """

    everywhere: tuple[Named, ...]
    by_option: tuple[tuple[tuple[str, tuple[Named, ...]], ...], ...]


def _loudest(content: Content) -> Loudest:
    """Offers of format 1 and 2 judged nothing."""
    rows = content.get("findings", [])
    everywhere = [row for row in rows if all(cell in LOUD for cell in row["cells"])]
    rest = [row for row in rows if row not in everywhere]
    by_option = []
    for place in range(len(content["options"])):
        named = {
            severity: tuple(map(_named, (row for row in rest if row["cells"][place] == severity)))
            for severity in LOUD
        }
        by_option.append(tuple((severity, rows_) for severity, rows_ in named.items() if rows_))
    return Loudest(tuple(map(_named, everywhere)), tuple(by_option))


def _stops(content: Content) -> dict[str, list[str]]:
    """Titles of what stops an option, by its value in the form of the answer."""
    rows = content.get("findings", [])
    return {
        str(place): [row["title"] for row in rows if row["cells"][place] == "stop"]
        for place in range(len(content["options"]))
    }


def _named(row: Content) -> Named:
    return row["code"], row["title"]


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
    working: Sequence[Content] = (),
) -> Line:
    texts = tuple(number_text(read(option), kind, units) for option in options)
    return Line(name, unit_text(kind, units), texts, strong, hint, working)


def _working(content: Content, figure: str) -> Sequence[Content]:
    """The blocks that explain a figure; an offer of format 1 has none."""
    blocks: Sequence[Content] = content.get("working", {}).get(figure, ())
    return blocks


def _cost_table(content: Content) -> Table:
    options, units = content["options"][1:], content["units"]
    lines = [
        _line(
            _("Installed, all together"),
            "money",
            units,
            options,
            _total_cost,
            strong=True,
            working=_working(content, "cost"),
        )
    ]
    for index, reason in enumerate(REASON_NAMES):
        behind = _working(content, f"cost {reason}")
        read, name = _cost_reader(index), _(REASON_NAMES[reason])
        lines.append(_line(name, "money", units, options, read, working=behind))
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

    def line(
        name: str,
        kind: str,
        figure: str,
        working: str = "",
        *,
        strong: bool = False,
        hint: str = "",
    ) -> Line:
        read, behind = _reader(figure), _working(content, working)
        return _line(name, kind, units, options, read, strong=strong, hint=hint, working=behind)

    lines = [
        *_surface_lines(content),
        *_power_cut_lines(content),
        line(_("Heating and cooling bill a year"), "money", "fuel_cost_usd", "bill", strong=True),
        line(
            _("… that is less by"),
            "money",
            "saving_usd",
            "saving",
            hint=_("each figure is rounded by itself"),
        ),
        line(_("Heat the rooms need a year"), "energy", "heating_j", "heating"),
        line(_("Cooling the rooms need a year"), "energy", "cooling_j", "cooling"),
        line(_("Carbon dioxide a year"), "carbon_mass", "carbon_kg", "carbon"),
        _line(
            _("Carbon of making the materials, once"),
            "carbon_mass",
            units,
            options,
            lambda option: option["embodied"]["kg"] if option["embodied"] else 0.0,
            working=_working(content, "embodied"),
        ),
        _tightness(content),
        line(_("Fresh air by fan"), "flow", "ventilation_flow"),
        line(_("Walls grow outward by"), "thickness", "wall_growth"),
        Line(
            _("Rooms and spaces inside the insulation"),
            "",
            tuple(", ".join(option["inside_spaces"]) for option in options),
            hint=_("where the insulation runs"),
        ),
    ]
    return Table(_("What you get"), _names(options), tuple(lines))


def _power_cut_lines(content: Content) -> list[Line]:
    """How long the house stays bearable without power; offers of format 1 do not say."""
    told = {
        "stays_warm": _("Without power in January it stays above {limit} for"),
        "stays_cool": _("Without power in July it stays below {limit} for"),
    }
    hint = _("a mean day, people at home, windows shut; rooms change faster at first")
    units = content["units"]
    lines = []
    for figure, limit in content.get("power_cut_limits", {}).items():
        text = f"{number_text(limit, 'temperature', units, 0)} {unit_text('temperature', units)}"
        name = told[figure].format(limit=text)
        texts = tuple(option[figure] for option in content["options"])
        lines.append(Line(name, "", texts, hint=hint, working=_working(content, figure)))
    return lines


def _tightness(content: Content) -> Line:
    hint = _("air changes at 50 Pa in a blower-door test")
    if content["air_is_guessed"]:
        hint = _("air changes at 50 Pa in a blower-door test; as it is now: a guess, not tested")
    options, units = content["options"], content["units"]
    return _line(
        _("Airtightness"),
        "air_change_rate",
        units,
        options,
        _reader("ach50"),
        hint=hint,
        working=_working(content, "tightness"),
    )


def _surface_lines(content: Content) -> list[Line]:
    """The inside surfaces on the design night, of what stands against outdoors now."""
    lines = []
    for place, assembly in enumerate(content["assemblies"]):
        surfaces = [each["surface_temperature"] for each in assembly["by_option"]]
        if surfaces[0] is not None:
            name = _("Inside surface: {name}").format(name=assembly["name"])
            line = _assembly_line(name, "temperature", content, assembly, surfaces)
            lines.append(replace(line, working=_working(content, f"surface {place}")))
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
            working=_working(content, f"part {part['key']}"),
        )
        for part in content["parts"]
    ]
    whole = _line(
        _("All parts"),
        "energy",
        units,
        options,
        _reader("heating_j"),
        strong=True,
        working=_working(content, "heating"),
    )
    return Table(_("Heat by part of the house"), _names(options), (*lines, whole))


def _resistance_table(content: Content) -> Table:
    lines = []
    for place, assembly in enumerate(content["assemblies"]):
        name, kind = assembly["name"], assembly["kind"]
        if kind not in name.lower():
            name = f"{name} ({kind})"
        figures = [each["resistance"] for each in assembly["by_option"]]
        line = _assembly_line(name, "resistance", content, assembly, figures)
        lines.append(replace(line, working=_working(content, f"resistance {place}")))
    return Table(_("Real R"), _names(content["options"]), tuple(lines))


def _payback_table(content: Content) -> Table:
    options = content["options"][1:]

    def line(name: str, working: str, figure: str) -> Line:
        group = "embodied" if figure == "years_to_repay" else "payback"
        texts = tuple(
            NOT_KNOWN if option[group] is None else _years(option[group][figure])
            for option in options
        )
        return Line(name, "", texts, working=_working(content, working))

    return Table(
        _("Payback"),
        _names(options),
        (
            line(_("Bills pay back the whole price in"), "payback", "whole_years"),
            line(_("… the price beyond what is due anyway"), "payback of extra", "extra_years"),
            line(_("Carbon of the materials is saved in"), "carbon payback", "years_to_repay"),
        ),
    )


def _years(years: float | None) -> str:
    if years is None or years > LONGEST_YEARS:
        return _("never")
    if years < 10:
        return _("{years:.1f} years").format(years=years)
    return _("{years:.0f} years").format(years=years)
