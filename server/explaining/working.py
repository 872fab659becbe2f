"""Everything behind one result, table by table, in the order in which it is worked out."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.evaluate import Result
from server.core.explain import design, graph, months, parts, shares, sun
from server.core.explain.base import Column, Explanation
from server.core.explain.layers import layer_working
from server.core.house import Component
from server.core.transmittance import films_of
from server.explaining.tables import Table, table
from server.explaining.words import QUANTITY_WORDS, quantity_words
from server.units import N_

TITLES = {
    "layers": N_("Parts of layers"),
    "each_layer": N_("Layer by layer"),
    "known_u": N_("Parts of which only U is known"),
    "soil_slab": N_("Slabs on the ground"),
    "soil_edged_slab": N_("Slabs with insulation along the edge"),
    "soil_floor": N_("Basement floors"),
    "soil_wall": N_("Basement walls"),
    "buffers": N_("Spaces outside the insulation"),
    "openings": N_("Sun through openings"),
    "opaque": N_("Sun and sky on opaque surfaces"),
    "led_out": N_("Inside surfaces that lead out"),
    "planes": N_("Sun on every plane"),
    "shading": N_("Shading that changes over the year"),
    "design_night": N_("The design night, part by part"),
    "design_opaque": N_("Opaque parts on the design day"),
    "design_glass": N_("Glass on the design day"),
    "heating": N_("Heating, month by month"),
    "cooling": N_("Cooling, month by month"),
    "shares": N_("The heating need shared out, month by month"),
}
MONTHS = tuple(f"month_{number}" for number in range(1, 13))


def working(result: Result) -> tuple[Table, ...]:
    """The tables of one result; those without rows or columns are left out."""
    tables = [table(each.code, each.columns, each.names) for each in parts.part_tables(result)]
    names = list(result.working.graph.buffers)
    if names:
        tables.append(table("buffers", graph.buffers(result), names))
    tables += [table(each.code, each.columns, each.names) for each in sun.aperture_tables(result)]
    tables += [table(each.code, each.columns, each.names) for each in design.design_tables(result)]
    inner = sun.led_out_table(result)
    tables.append(table(inner.code, inner.columns, inner.names))
    monthly: tuple[tuple[str, tuple[Column, ...]], ...] = (
        ("planes", sun.plane_columns(result)),
        ("shading", sun.shading_columns(result)),
        ("heating", months.heating_columns(result)),
        ("cooling", months.cooling_columns(result)),
        ("shares", shares.share_columns(result)),
    )
    twelve = [_(QUANTITY_WORDS[month]) for month in MONTHS]
    return (*tables, *(table(code, columns, twelve) for code, columns in monthly if columns))


def once_a_year(result: Result) -> list[tuple[str, Explanation]]:
    """What the tables take as given, and is worked out once for the year."""
    led = quantity_words("led_out"), sun.led_out(result)
    heat = quantity_words("heat_per_conductance")
    ways = [
        (f"{heat}, {quantity_words(way)}", explained)
        for way, explained in shares.heat_of_ways(result).items()
    ]
    return [led, *ways]


@dataclass(frozen=True, slots=True)
class LayersTold:
    """One assembly taken apart: its layers as a table, and how its limits come about."""

    name: str
    table: Table
    steps: tuple[tuple[str, Explanation], ...]


def layers_told(result: Result, part: Component) -> LayersTold | None:
    """The layers of a component; None where only U is known."""
    told = layer_working(result.house, part)
    if told is None:
        return None
    steps = tuple((quantity_words(name), step) for name, step in told.steps)
    return LayersTold(told.assembly.name, table("each_layer", told.columns, told.names), steps)


def assemblies_told(results: Sequence[Result]) -> list[LayersTold]:
    """Every way in which something is built in any of the results, once for each use of it."""
    told: dict[Hashable, LayersTold] = {}
    seen: set[Hashable] = set()
    for result in results:
        for each in result.components:
            part = each.component
            built = id(part.construction), part.heat_flow, films_of(part, result.house.films)
            if built in seen or (layers := layers_told(result, part)) is None:
                continue
            seen.add(built)
            # a strategy makes an assembly anew for every part, though it be the same
            alike = tuple(f"{float(step.value):.9g}" for _name, step in layers.steps)
            told.setdefault((layers.name, layers.table.names, layers.table.rows, alike), layers)
    return list(told.values())


def title_of(code: str) -> str:
    """What a table of the working is called."""
    return _(TITLES[code])
