"""What the insulation that a strategy puts in does against noise, and what it does not do."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import SolidLayer
from server.core.findings.base import Fact, Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.insulation_sorts import PutIn, found_by_outcome, new_insulation
from server.core.findings.layers import is_foam
from server.core.house import Kind

# Sound transmission class of 2x4 wood studs with 1/2 in gypsum board on both sides, empty and
# with 3 1/2 in of fibre: National Building Code of Canada, Table 9.10.3.1.-A, wall W1 (memory)
EMPTY = 32
FILLED = 34


def _judge(case: Case) -> Iterator[Found]:
    """Partitions, inner floors and outside walls that the strategy fills or clads."""
    for found in found_by_outcome(new_insulation(case), _outcome):
        if not found.outcome.startswith("partition"):
            yield found
            continue
        figures: dict[str, Fact] = {"empty": EMPTY, "filled": FILLED, **(found.facts or {})}
        yield Found(found.outcome, found.components, figures)


def _outcome(piece: PutIn) -> str | None:
    kind = piece.part.kind
    if kind in (Kind.PARTITION, Kind.INNER_FLOOR) and not piece.is_fill:
        return None
    if kind is Kind.PARTITION:
        if is_foam(piece.material):
            return "foam in a partition"
        return "partition" if _is_gypsum_both_sides(piece.part) else "partition, other faces"
    if kind is Kind.INNER_FLOOR:
        return "inner floor"
    return "outside wall" if kind is Kind.WALL and piece.part.is_shell else None


def _is_gypsum_both_sides(part: Part) -> bool:
    """Whether both faces are gypsum board, as in the published test."""
    faces = (part.layers[0], part.layers[-1])
    return all(
        isinstance(face, SolidLayer) and "gypsum board" in face.material.name for face in faces
    )


RULE = Rule(
    "sound",
    {
        "partition": Severity.WATCH,
        "partition, other faces": Severity.WATCH,
        "foam in a partition": Severity.WATCH,
        "inner floor": Severity.WATCH,
        "outside wall": Severity.GOOD,
    },
    _judge,
)
