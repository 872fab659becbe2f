"""A comparison as rows of figures, the same for the page, the printout and the terminal.

A row holds numbers in the base unit of its kind of quantity (see `units`); nothing is formatted.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.arrays import Real
from server.core.assembly import Assembly
from server.core.comparison import Comparison
from server.core.evaluate import Result
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

JOULES_PER_KWH = 3.6e6
MAIN_SHARE = 0.01  # of the conductance as found: a smaller assembly is not a main one

PART_NAMES = {
    ROOF: "Roof and ceilings",
    WALLS: "Walls",
    OPENINGS_PART: "Windows and doors",
    FLOOR: "Floors and ground",
    JUNCTIONS: "Junctions",
    AIR: "Air leaks and ventilation",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One number in the base unit of its row's kind; None where it is not known.

    label: a label value beside it. note: words in place of a number.
    """

    value: float | None
    label: float | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One line across all results. strong: a total or a headline."""

    name: str
    kind: str
    figures: tuple[Figure, ...]
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """Rows that belong together, with a line on how to read them."""

    title: str
    words: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole comparison. columns: the results' names, as found first."""

    house: str
    climate: str
    columns: tuple[str, ...]
    sections: tuple[Section, ...]
    parts: tuple[Row, ...]


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
            Section(
                _("Where the heat goes"),
                _("The yearly heating need, shared out by what each part of the house loses."),
                (*parts, _row(_("All parts"), "energy", results, _heating, strong=True)),
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


def _row(
    name: str,
    kind: str,
    results: Sequence[Result],
    read: Callable[[Result], Real | None],
    *,
    strong: bool = False,
) -> Row:
    return Row(name, kind, tuple(Figure(number(read(result))) for result in results), strong)


def number(value: Real | None) -> float | None:
    """A figure of one house as a plain float; None stays None."""
    return None if value is None else float(value)


def _part_rows(results: Sequence[Result]) -> tuple[Row, ...]:
    """Parts in whole kWh, so that what is printed adds up to what is printed below."""
    shares = [heating_by_part(result) for result in results]
    whole = [whole_parts([float(share[part]) for part in PARTS]) for share in shares]
    return tuple(
        Row(
            _(PART_NAMES[part]),
            "energy",
            tuple(Figure(parts[index] * JOULES_PER_KWH) for parts in whole),
        )
        for index, part in enumerate(PARTS)
    )


def whole_parts(parts: Sequence[float]) -> list[float]:
    """Parts as whole numbers that sum to their rounded sum: the largest remainders go up."""
    whole = [float(math.floor(part)) for part in parts]
    missing = round(sum(parts)) - int(sum(whole))
    by_remainder = sorted(range(len(parts)), key=lambda index: whole[index] - parts[index])
    for index in by_remainder[:missing]:
        whole[index] += 1.0
    return whole


def _year_rows(results: Sequence[Result]) -> tuple[Row, ...]:
    rows = [
        _row(_("Heating need"), "energy", results, _heating),
        _row(
            _("Cooling need, sensible"),
            "energy",
            results,
            lambda result: result.cooling_load_kwh * JOULES_PER_KWH,
        ),
        _row(
            _("Cooling need, moisture"),
            "energy",
            results,
            lambda result: result.latent_load_kwh * JOULES_PER_KWH,
        ),
    ]
    rows += _fuel_rows(results)
    rows.append(
        _row(_("Cost of fuel a year"), "money", results, lambda r: r.annual_cost, strong=True)
    )
    rows.append(_row(_("Carbon dioxide a year"), "carbon_mass", results, lambda r: r.carbon))
    return tuple(rows)


def _fuel_rows(results: Sequence[Result]) -> list[Row]:
    """A row for every fuel of every use; a result without that use has an empty place."""
    uses = dict.fromkeys((use.use, use.fuel) for result in results for use in result.fuels)
    rows = []
    for use, fuel in uses:
        name = _("{fuel} for {use}").format(fuel=fuel.capitalize(), use=use)
        kind = "gas_energy" if fuel == "natural gas" else "energy"
        figures = tuple(Figure(number(_fuel_of(result, use, fuel))) for result in results)
        rows.append(Row(name, kind, figures))
    return rows


def _fuel_of(result: Result, use: str, fuel: str) -> Real | None:
    for each in result.fuels:
        if (each.use, each.fuel) == (use, fuel):
            return each.energy_kwh * JOULES_PER_KWH
    return None


def _difference_rows(results: Sequence[Result], found: Result) -> tuple[Row, ...]:

    def less(read: Callable[[Result], Real | None]) -> Callable[[Result], Real | None]:
        def difference(result: Result) -> Real | None:
            before, after = read(found), read(result)
            return None if before is None or after is None else after - before

        return difference

    def heating_share(result: Result) -> Real | None:
        before = float(found.heating_load_kwh)
        return None if not before else result.heating_load_kwh / before - 1.0

    return (
        _row(_("Heating need"), "energy", results, less(_heating)),
        _row(_("Heating need, share"), "share", results, heating_share),
        _row(
            _("Cooling need, sensible"),
            "energy",
            results,
            less(lambda result: result.cooling_load_kwh * JOULES_PER_KWH),
        ),
        _row(_("Cost of fuel"), "money", results, less(lambda r: r.annual_cost), strong=True),
        _row(_("Carbon dioxide"), "carbon_mass", results, less(lambda r: r.carbon)),
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
        rows.append((conductance, Row(name, "resistance", figures)))
    return tuple(row for _conductance, row in sorted(rows, key=lambda pair: -pair[0]))


def _mean_resistance(result: Result, members: Sequence[int]) -> Figure:
    """Area over the sum of U A: resistances themselves are never averaged."""
    parts = [result.components[index] for index in members]
    if not any(float(part.conductance) for part in parts):
        return Figure(None, note=_("indoors"))
    area = sum(float(part.component.area) for part in parts)
    resistance = area / sum(float(part.u_value) * float(part.component.area) for part in parts)
    labels = {number(part.label_resistance) for part in parts}
    return Figure(resistance, label=labels.pop() if len(labels) == 1 else None)


def _envelope_rows(results: Sequence[Result]) -> tuple[Row, ...]:
    return (
        _row(_("To outdoors, without air"), "conductance", results, lambda r: r.to_outdoors),
        _row(_("To the ground"), "conductance", results, lambda r: r.to_ground),
        _row(_("Outdoor air, yearly mean"), "conductance", results, lambda r: r.air),
        _row(
            _("Air changes at 50 Pa"),
            "air_change_rate",
            results,
            lambda r: r.air_changes_at_50_pa,
        ),
    )
