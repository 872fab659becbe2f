"""Insulation at the edge of a slab that is worked on, beside what the energy code asks."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.films import HOUR_FT2_DEGF_PER_BTU as LABEL
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case
from server.core.house import Kind

FOOT = 0.3048  # m
NEEDED = 10.0 * LABEL
# Depth of R-10 at an unheated slab by the first zone it holds in, m. IECC 2021 Table R402.1.3 as
# published by a national building-science programme; IECC 2018 Table R402.1.2, memory.
DEPTHS = {
    "IECC 2021": {3: 2.0 * FOOT, 4: 4.0 * FOOT},
    "IECC 2018": {4: 2.0 * FOOT, 6: 4.0 * FOOT},
}


def _judge(case: Case) -> Iterator[Found]:
    edges = case.strategy.edge_insulation if case.strategy is not None else None
    if not edges or case.zone is None:
        return
    table = DEPTHS[case.site.code.edition]
    asked = [depth for first, depth in table.items() if case.zone.number >= first]
    if not asked:
        return
    depth = asked[-1]
    for part in case.parts:
        if part.kind is not Kind.SLAB or part.name not in edges or not part.is_shell:
            continue
        edge = edges[part.name]
        resistance, extent = float(edge.resistance), float(edge.extent)
        facts: dict[str, Fact] = {
            "depth": Quantity(depth, "length"),
            "extent": Quantity(extent, "length"),
            "zone": f"{case.zone.number}{case.zone.letter}",
        }
        measured = Measured(
            Quantity(round(resistance, 3), "resistance"), Quantity(NEEDED, "resistance"), True
        )
        if resistance < NEEDED - 1e-6:
            yield Found("thin", (part.name,), facts, measured)
        elif extent < depth - 1e-6:
            deep = Measured(Quantity(extent, "length"), Quantity(depth, "length"), True)
            yield Found("shallow", (part.name,), facts, deep)
        else:
            yield Found("enough", (part.name,), facts, measured)


RULE = Rule(
    "slab edge by the code",
    {"enough": Severity.GOOD, "thin": Severity.WATCH, "shallow": Severity.WATCH},
    _judge,
)
