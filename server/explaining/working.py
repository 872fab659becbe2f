"""Everything behind one result, table by table, in the order in which it is worked out."""

from __future__ import annotations

from gettext import gettext as _

from server.core.evaluate import Result
from server.core.explain import graph, months, parts, shares, sun
from server.core.explain.base import Column
from server.explaining.tables import Table, table
from server.explaining.words import QUANTITY_WORDS
from server.units import N_

TITLES = {
    "layers": N_("Parts of layers"),
    "known_u": N_("Parts of which only U is known"),
    "soil": N_("Parts in the ground"),
    "buffers": N_("Spaces outside the insulation"),
    "openings": N_("Sun through openings"),
    "opaque": N_("Sun and sky on opaque surfaces"),
    "planes": N_("Sun on every plane"),
    "shading": N_("Shading that changes over the year"),
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
    monthly: tuple[tuple[str, tuple[Column, ...]], ...] = (
        ("planes", sun.plane_columns(result)),
        ("shading", sun.shading_columns(result)),
        ("heating", months.heating_columns(result)),
        ("cooling", months.cooling_columns(result)),
        ("shares", shares.share_columns(result)),
    )
    twelve = [_(QUANTITY_WORDS[month]) for month in MONTHS]
    return (*tables, *(table(code, columns, twelve) for code, columns in monthly if columns))


def title_of(code: str) -> str:
    """What a table of the working is called."""
    return _(TITLES[code])
