"""Conductances from indoors: what is direct, what goes through buffers, what the ground takes."""

from __future__ import annotations

from server.core.arrays import Real
from server.core.evaluate import Result
from server.core.explain.base import SUM, Column, Explanation, Formula, Input, Label
from server.core.house import GROUND, OUTDOORS
from server.core.network import INDOORS, Edge

KIRCHHOFF = "steady balance of the spaces (Kirchhoff); ISO 13789 for one unheated space"


def to_outdoors(result: Result) -> Explanation:
    """Conductance from indoors to outdoors, through buffers too.

    Shapes: one house without draws, W/K. Range: any result. Raises: nothing.
    Source: `network.balance`.
    """
    return _folded(result, OUTDOORS, result.to_outdoors, "outdoors_weight")


def to_ground(result: Result) -> Explanation:
    """Conductance from indoors to the ground, through buffers too.

    Shapes: one house without draws, W/K. Range: any result. Raises: nothing.
    Source: `network.balance`.
    """
    return _folded(result, GROUND, result.to_ground, "ground_weight")


def _folded(result: Result, side: str, value: Real, weight: str) -> Explanation:
    terms: list[str] = []
    inputs: list[Input] = []
    for name, edge in _named_edges(result):
        if {edge.first, edge.second} == {INDOORS, side}:
            symbol = f"K_{len(terms) + 1}"
            terms.append(symbol)
            inputs.append(Input(symbol, Label(name), edge.conductance, "W/K"))
    for buffer, weights in result.working.graph.buffers.items():
        tie = _tie(result, buffer, INDOORS)
        share = weights.outdoors if side == OUTDOORS else weights.ground
        if not tie or not share:
            continue
        number = len(terms) + 1
        terms.append(f"K_{number}*w_{number}")
        inputs += [
            Input(f"K_{number}", Label(buffer), tie, "W/K"),
            Input(f"w_{number}", weight, share, ""),
        ]
    expression = " + ".join(terms) if terms else SUM
    return Explanation(
        Formula("folded_conductance", "K", expression, "W/K", KIRCHHOFF), value, tuple(inputs)
    )


def buffers(result: Result) -> tuple[Column, ...]:
    """The buffers of a house, one row each: what ties them, and what their temperature is made of.

    Shapes: one house without draws; W/K and shares. Range: any result; no rows without buffers.
    Raises: nothing.
    Source: `network.balance`.
    """
    names = list(result.working.graph.buffers)
    rows = [[_tie(result, name, other) for name in names] for other in (INDOORS, OUTDOORS, GROUND)]
    between = [
        [_tie(result, name, other) if other != name else 0.0 for name in names] for other in names
    ]
    weights = [result.working.graph.buffers[name] for name in names]
    columns = [
        Column("K_in", "tie_to_indoors", "W/K", tuple(rows[0])),
        Column("K_out", "tie_to_outdoors", "W/K", tuple(rows[1])),
        Column("K_soil", "tie_to_ground", "W/K", tuple(rows[2])),
    ]
    if len(names) > 1:
        columns += [
            Column(f"K_{number}", Label(name), "W/K", tuple(between[number - 1]))
            for number, name in enumerate(names, start=1)
        ]
    columns += [
        _weights("w_out", "outdoors_weight", "K_out", [each.outdoors for each in weights], names),
        _weights("w_soil", "ground_weight", "K_soil", [each.ground for each in weights], names),
        _weights("w_in", "source_weight", "K_in", [each.source_share for each in weights], names),
    ]
    return tuple(columns)


def _weights(symbol: str, name: str, tie: str, values: list[Real], buffers: list[str]) -> Column:
    many = len(buffers) > 1
    others = [f"K_{number}" for number in range(1, len(buffers) + 1)] if many else []
    top = [tie, *(f"{each}*{symbol}_{each[2:]}" for each in others)]
    bottom = ["K_in", "K_out", "K_soil", *others]
    formula = Formula(
        "buffer_weight",
        symbol,
        f"({' + '.join(top)})/({' + '.join(bottom)})",
        "",
        KIRCHHOFF,
    )
    inputs = tuple(
        Input(f"{symbol}_{number}", Label(buffers[number - 1]), value, "")
        for number, value in enumerate(values, start=1)
        if many
    )
    return Column(symbol, name, "", tuple(values), formula, inputs)


def _named_edges(result: Result) -> list[tuple[str, Edge]]:
    house = result.house
    names = [part.name for part in house.components]
    names += [junction.name for junction in house.junctions]
    names += [f"air of {space.name}" for space in house.buffers]
    return list(zip(names, result.working.edges, strict=True))


def _tie(result: Result, node: str, other: str) -> Real:
    total: Real = 0.0
    for edge in result.working.edges:
        if {edge.first, edge.second} == {node, other} and edge.first != edge.second:
            total = total + edge.conductance
    return total
