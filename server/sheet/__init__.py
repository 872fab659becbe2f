"""A comparison as rows of figures, the same for the page, the printout and the terminal.

A row holds numbers in the base unit of its kind of quantity (see `units`); nothing is formatted.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from gettext import gettext as _

from server.core.arrays import Real
from server.core.assembly import Assembly
from server.core.comparison import Comparison
from server.core.evaluate import Result
from server.core.explain import graph, year
from server.core.explain.parts import mean_resistance
from server.core.house import INNER_KINDS, Kind
from server.core.parts import (
    AIR,
    FLOOR,
    JUNCTIONS,
    OPENINGS_PART,
    PARTS,
    ROOF,
    WALLS,
    heating_by_part,
)
from server.sheet.design import design_section, outage_section
from server.sheet.rows import (
    JOULES_PER_KWH,
    Figure,
    Row,
    Section,
    Sheet,
    number,
    row_of,
    whole_parts,
)

__all__ = [
    "JOULES_PER_KWH",
    "Figure",
    "Row",
    "Section",
    "Sheet",
    "number",
    "sheet",
    "whole_parts",
]

MAIN_SHARE = 0.01  # of the conductance as found: a smaller assembly is not a main one

PART_NAMES = {
    ROOF: "Roof and ceilings",
    WALLS: "Walls",
    OPENINGS_PART: "Windows and doors",
    FLOOR: "Floors and ground",
    JUNCTIONS: "Junctions",
    AIR: "Air leaks and ventilation",
}


def sheet(comparison: Comparison, base: int = 0) -> Sheet:
    """Lay a comparison out. base: the column that the differences are taken against."""
    results = comparison.all_results
    parts = _part_rows(results)
    columns = (_("As found"), *(strategy.name for strategy in comparison.strategies))
    against = columns[base][:1].lower() + columns[base][1:] if base == 0 else columns[base]
    return Sheet(
        house=comparison.house.name,
        climate=comparison.house.climate.name,
        columns=columns,
        parts=parts,
        sections=(
            Section(
                _("A year in figures"),
                _("Heat and cold are what the rooms need; fuel is what the meters read."),
                _year_rows(results),
            ),
            Section(
                _("Against {column}").format(column=against),
                _("What each takes off a year; a minus means less."),
                _difference_rows(results, results[base]),
            ),
            design_section(results),
            outage_section(results),
            Section(
                _("Where the heat goes"),
                _("The yearly heating need, shared out by what each part of the house loses."),
                (*parts, _all_parts(results)),
            ),
            Section(
                _("Real R of the main assemblies"),
                _("Framing, films and air layers counted; label R is what the package says."),
                _assembly_rows(comparison),
            ),
            Section(
                _("Air and conductance"),
                _("Per degree between indoors and outdoors, or indoors and ground."),
                _envelope_rows(results),
            ),
        ),
    )


def _heating(result: Result) -> Real:
    return result.heating_load_kwh * JOULES_PER_KWH


def _all_parts(results: Sequence[Result]) -> Row:
    return row_of(
        _("All parts"), "energy", results, _heating, strong=True, explain=year.heating_need
    )


def _part_rows(results: Sequence[Result]) -> tuple[Row, ...]:
    """Parts in whole kWh, so that what is printed adds up to what is printed below."""
    shares = [heating_by_part(result) for result in results]
    whole = [whole_parts([float(share[part]) for part in PARTS]) for share in shares]
    return tuple(
        Row(
            _(PART_NAMES[part]),
            "energy",
            tuple(Figure(parts[index] * JOULES_PER_KWH) for parts in whole),
            explanations=tuple(year.heat_of_part(result, part) for result in results),
        )
        for index, part in enumerate(PARTS)
    )


def _year_rows(results: Sequence[Result]) -> tuple[Row, ...]:
    rows = [
        row_of(_("Heating need"), "energy", results, _heating, explain=year.heating_need),
        row_of(
            _("Cooling need, sensible"),
            "energy",
            results,
            lambda result: result.cooling_load_kwh * JOULES_PER_KWH,
            explain=year.cooling_need,
        ),
        row_of(
            _("Cooling need, moisture"),
            "energy",
            results,
            lambda result: result.latent_load_kwh * JOULES_PER_KWH,
            explain=year.latent_need,
        ),
    ]
    rows += _fuel_rows(results)
    rows += [
        row_of(
            _("Cost of fuel a year"),
            "money",
            results,
            lambda result: result.annual_cost,
            strong=True,
            explain=year.annual_cost,
        ),
        row_of(
            _("Carbon dioxide a year"),
            "carbon_mass",
            results,
            lambda result: result.carbon,
            explain=year.carbon,
        ),
    ]
    return tuple(rows)


def _fuel_rows(results: Sequence[Result]) -> list[Row]:
    """A row for every fuel of every use; a result without that use has an empty place."""
    uses = dict.fromkeys((use.use, use.fuel) for result in results for use in result.fuels)
    rows = []
    for use, fuel in uses:
        name = _("{fuel} for {use}").format(fuel=fuel.capitalize(), use=use)
        kind = "gas_energy" if fuel == "natural gas" else "energy"
        figures = tuple(Figure(number(_fuel_of(result, use, fuel))) for result in results)
        behind = tuple(year.fuel(result, use, fuel) for result in results)
        rows.append(Row(name, kind, figures, explanations=behind))
    return rows


def _fuel_of(result: Result, use: str, fuel: str) -> Real | None:
    for each in result.fuels:
        if (each.use, each.fuel) == (use, fuel):
            return each.energy_kwh * JOULES_PER_KWH
    return None


def _difference_rows(results: Sequence[Result], found: Result) -> tuple[Row, ...]:
    def less(
        name: str,
        kind: str,
        unit: str,
        read: Callable[[Result], Real | None],
        scale: float = 1.0,
        *,
        strong: bool = False,
    ) -> Row:
        behind = tuple(year.change(read(found), read(result), unit) for result in results)
        figures = tuple(
            Figure(None if each is None else float(each.value) * scale) for each in behind
        )
        return Row(name, kind, figures, strong, behind)

    def heating(result: Result) -> Real:
        return result.heating_load_kwh

    def cooling(result: Result) -> Real:
        return result.cooling_load_kwh

    shares = tuple(year.share_of_change(heating(found), heating(result)) for result in results)
    share_figures = tuple(Figure(number(None if each is None else each.value)) for each in shares)
    return (
        less(_("Heating need"), "energy", "kWh", heating, JOULES_PER_KWH),
        Row(_("Heating need, share"), "share", share_figures, explanations=shares),
        less(_("Cooling need, sensible"), "energy", "kWh", cooling, JOULES_PER_KWH),
        less(_("Cost of fuel"), "money", "USD", lambda r: r.annual_cost, strong=True),
        less(_("Carbon dioxide"), "carbon_mass", "kg", lambda r: r.carbon),
    )


def _assembly_rows(comparison: Comparison) -> tuple[Row, ...]:
    """One row for every assembly found, over the parts that were built so."""
    found = comparison.as_found
    groups: dict[tuple[int, Kind], list[int]] = {}
    for index, each in enumerate(found.components):
        part = each.component
        if isinstance(part.construction, Assembly) and part.kind not in INNER_KINDS:
            groups.setdefault((id(part.construction), part.kind), []).append(index)
    whole = sum(float(each.conductance) for each in found.components)
    rows = []
    for (_built, kind), members in groups.items():
        conductance = sum(float(found.components[index].conductance) for index in members)
        if conductance < MAIN_SHARE * whole:
            continue
        construction = found.components[members[0]].component.construction
        assert isinstance(construction, Assembly)
        name = f"{construction.name} ({kind.value})"
        figures = tuple(_mean_resistance(result, members) for result in comparison.all_results)
        behind = tuple(
            None if figure.value is None else mean_resistance(result, members)
            for result, figure in zip(comparison.all_results, figures, strict=True)
        )
        row = Row(name, "resistance", figures, explanations=behind)
        rows.append((conductance, row))
    return tuple(row for _conductance, row in sorted(rows, key=lambda pair: -pair[0]))


def _mean_resistance(result: Result, members: Sequence[int]) -> Figure:
    """Area over the sum of U A: resistances themselves are never averaged."""
    parts = [result.components[index] for index in members]
    if not any(float(part.conductance) for part in parts):
        return Figure(None, note=_("indoors"))
    resistance = float(mean_resistance(result, members).value)
    labels = {number(part.label_resistance) for part in parts}
    return Figure(resistance, label=labels.pop() if len(labels) == 1 else None)


def _envelope_rows(results: Sequence[Result]) -> tuple[Row, ...]:
    return (
        row_of(
            _("To outdoors, without air"),
            "conductance",
            results,
            lambda result: result.to_outdoors,
            explain=graph.to_outdoors,
        ),
        row_of(
            _("To the ground"),
            "conductance",
            results,
            lambda result: result.to_ground,
            explain=graph.to_ground,
        ),
        row_of(
            _("Outdoor air, yearly mean"),
            "conductance",
            results,
            lambda result: result.air,
            explain=year.mean_air,
        ),
        row_of(
            _("Air changes at 50 Pa"),
            "air_change_rate",
            results,
            lambda result: result.air_changes_at_50_pa,
            explain=year.air_changes_at_50_pa,
        ),
    )
