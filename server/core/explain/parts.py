"""The parts of a house, row by row: what each conducts, and what it answers for."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from server.core.arrays import Real
from server.core.assembly import Assembly
from server.core.evaluate import ComponentResult, Result, other_than_indoors
from server.core.explain.base import Column, Explanation, Formula, Input, Label
from server.core.explain.soil import soil_columns, sort_of
from server.core.explain.year import DEFINITION
from server.core.house import GROUND_KINDS
from server.core.network import Edge

ISO_6946 = "ISO 6946:2017 6.7, combined method"
SHARES = "definition: shares of one whole, by the gross loss of each way out"

_SYMBOL = re.compile(r"[^\W\d]\w*")
_MEAN = Formula(
    "mean_of_limits", "R", "1/(2/(R_up + R_lo) + ΔU_f)", "m²·K/W", f"{ISO_6946}; Annex F.3 (memory)"
)
_INVERSE = Formula("inverse_of_u", "R", "1/U", "m²·K/W", DEFINITION)
_OF_ALL = Formula("mean_resistance", "R", "A/K", "m²·K/W", DEFINITION)
_U = Formula("inverse_of_r", "U", "1/R", "W/(m²·K)", DEFINITION)
_CONDUCTANCE = Formula("area_conductance", "UA", "U*A*f", "W/K", DEFINITION)
_HEAT = Formula("heat_of_a_part", "Q", "UA*e", "kWh", SHARES)


@dataclass(frozen=True, slots=True, eq=False)
class PartTable:
    """Parts whose figures come about in the same way. code: names the way."""

    code: str
    names: tuple[str, ...]
    columns: tuple[Column, ...]


def part_tables(result: Result) -> tuple[PartTable, ...]:
    """The components: those of layers, those of which only U is known, those in the ground.

    f is 1, or 0 for a part with rooms inside the boundary on both sides; e is the heating need of
    a year for each W/K that leads where the part leads (`months.share_columns`).
    Shapes: one house without draws; SI, energies in kWh. Range: any result. Raises: nothing.
    Source: each column's own.
    """
    sorts: dict[str, list[int]] = {"layers": [], "known_u": []}
    for index, each in enumerate(result.components):
        sort = "layers" if isinstance(each.component.construction, Assembly) else "known_u"
        if sort == "layers" and each.component.kind in GROUND_KINDS:
            sort = sort_of(each.component)
        sorts.setdefault(sort, []).append(index)
    return tuple(_table(result, sort, rows) for sort, rows in sorts.items() if rows)


def of_part(result: Result, index: int) -> dict[str, Explanation]:
    """Every figure of one component that is worked out, by the name of its quantity.

    Shapes: one house without draws, a place among the components. Range: any result.
    Raises: nothing.
    Source: each column's own.
    """
    name = result.components[index].component.name
    table = next(each for each in part_tables(result) if name in each.names)
    row = table.names.index(name)
    found = {}
    for column in table.columns:
        value = column.values[row]
        if column.formula is None or value is None:
            continue
        used = set(_SYMBOL.findall(column.formula.expression))
        inputs = tuple(
            Input(each.symbol, each.name, each.values[row], each.unit)
            for each in table.columns
            if each.symbol in used
        )
        is_share = column.symbol == "Q" and bool(result.heating_load_kwh)
        share = value / result.heating_load_kwh if is_share else None
        found[column.name] = Explanation(column.formula, value, inputs, share)
    return found


def mean_resistance(result: Result, members: Sequence[int]) -> Explanation:
    """Real R over some components, by their place in the house: area over the sum of U A.

    Shapes: one house without draws, m2 K/W. Range: at least one component. Raises: nothing.
    Source: definition; resistances themselves are never averaged.
    """
    inputs: list[Input] = []
    areas, losses = [], []
    area: Real = 0.0
    loss: Real = 0.0
    for number, index in enumerate(members, start=1):
        each = result.components[index]
        size = each.component.area
        label = Label(each.component.name)
        place = ("components", index, "area")
        inputs += [
            Input(f"A_{number}", label, size, "m²", place),
            Input(f"U_{number}", label, each.u_value, "W/(m²·K)"),
        ]
        areas.append(f"A_{number}")
        losses.append(f"U_{number}*A_{number}")
        area, loss = area + size, loss + each.u_value * size
    expression = f"({' + '.join(areas)})/({' + '.join(losses)})"
    formula = Formula("mean_resistance", "R", expression, "m²·K/W", DEFINITION)
    return Explanation(formula, area / loss, tuple(inputs))


def resistance_of_all(result: Result, members: Sequence[int]) -> Explanation:
    """Real R over some components, from their area and their conductance in all.

    Shapes: one house without draws, m2 K/W. Range: at least one component. Raises: nothing.
    Source: definition; resistances themselves are never averaged.
    """
    parts = [result.components[index] for index in members]
    area: Real = 0.0
    loss: Real = 0.0
    for each in parts:
        area, loss = area + each.component.area, loss + each.u_value * each.component.area
    inputs = (Input("A", "area", area, "m²"), Input("K", "conductance", loss, "W/K"))
    return Explanation(_OF_ALL, area / loss, inputs)


def _table(result: Result, sort: str, indices: Sequence[int]) -> PartTable:
    rows = [result.components[index] for index in indices]
    edges = [result.working.edges[index] for index in indices]

    def column(
        symbol: str,
        name: str,
        unit: str,
        read: Callable[[ComponentResult], Real | None],
        formula: Formula | None = None,
    ) -> Column:
        return Column(symbol, name, unit, tuple(read(each) for each in rows), formula)

    resistance = column("R", "resistance", "m²·K/W", lambda each: each.resistance, _INVERSE)
    made: tuple[Column, ...]
    if sort == "layers":
        made = (
            column("A", "area", "m²", lambda each: each.component.area),
            column("R_up", "upper_limit", "m²·K/W", _upper),
            column("R_lo", "lower_limit", "m²·K/W", _lower),
            column("ΔU_f", "fastener_loss", "W/(m²·K)", _fasteners),
            column("R", "resistance", "m²·K/W", lambda each: each.resistance, _MEAN),
            column("U", "u_value", "W/(m²·K)", lambda each: each.u_value, _U),
        )
    elif sort == "known_u":
        made = (
            column("A", "area", "m²", lambda each: each.component.area),
            column("U", "u_value", "W/(m²·K)", lambda each: each.u_value),
            resistance,
        )
    else:
        made = (*soil_columns(result, sort, indices), resistance)
    return PartTable(
        sort,
        tuple(each.component.name for each in rows),
        (
            *made,
            Column("f", "faces_away", "", tuple(_leads_away(edge) for edge in edges)),
            column("UA", "conductance", "W/K", lambda each: each.conductance, _CONDUCTANCE),
            Column("e", "heat_per_conductance", "kWh/(W/K)", tuple(_heat(result, edges))),
            column("Q", "heating_share", "kWh", lambda each: each.heating_share_kwh, _HEAT),
        ),
    )


def _upper(each: ComponentResult) -> Real | None:
    return None if each.limits is None else each.limits.upper


def _lower(each: ComponentResult) -> Real | None:
    return None if each.limits is None else each.limits.lower


def _fasteners(each: ComponentResult) -> Real | None:
    return None if each.limits is None else each.limits.fasteners


def _leads_away(edge: Edge) -> float:
    return 0.0 if edge.first == edge.second else 1.0


def _heat(result: Result, edges: Sequence[Edge]) -> list[Real]:
    ways = result.working.shares
    heat: list[Real] = []
    for edge in edges:
        other = other_than_indoors(edge)
        heat.append(0.0 if other is None else ways[other].per_conductance)
    return heat
