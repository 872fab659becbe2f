"""Insulation at the edge of a slab that is worked on, beside what the energy code asks."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.films import HOUR_FT2_DEGF_PER_BTU as LABEL
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case
from server.core.house import Kind

FOOT = 0.3048  # m
# Unheated slab: R-10, so deep from each zone on. IECC 2021 Table R402.1.3, as published by a
# national building-science programme; IECC 2018 Table R402.1.2 (memory).
NEEDED = 10.0 * LABEL
DEPTHS = {
    "IECC 2021": {3: 2.0 * FOOT, 4: 4.0 * FOOT},
    "IECC 2018": {4: 2.0 * FOOT, 6: 4.0 * FOOT},
}


def _judge(case: Case) -> Iterator[Found]:
    edges = case.strategy.edge_insulation if case.strategy is not None else None
    if not edges or case.zone is None:
        return
    number = case.zone.number
    depths = [each for first, each in DEPTHS[case.site.code.edition].items() if first <= number]
    if not depths:
        return
    depth = depths[-1]
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
        enough = resistance >= NEEDED - 1e-6 and extent >= depth - 1e-6
        yield Found("enough" if enough else "less", (part.name,), facts, measured)


RULE = Rule("slab edge by the code", {"enough": Severity.GOOD, "less": Severity.WATCH}, _judge)
