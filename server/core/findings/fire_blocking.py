"""Whether the bays of the walls are closed at every floor, so that fire cannot climb in them."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import FramedLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.insulation_sorts import new_insulation
from server.core.house import Kind

PLATFORM_FROM = 1950  # built from then on: platform framing is usual (common practice)
WALLS = (Kind.WALL, Kind.PARTITION)


def _judge(case: Case) -> Iterator[Found]:
    """What was seen of the framing, and whether a strategy packs the bays."""
    if not any(_may_be_framed(part) for part in case.parts):
        return
    framing = case.seen.framing
    if framing == "platform":
        yield Found("platform")
    elif framing == "balloon":
        yield _balloon(case)
    elif case.seen.year_built is None:
        yield Found("not known, no year")
    elif case.seen.year_built < PLATFORM_FROM:
        yield Found("not known", (), {"year": case.seen.year_built})


def _may_be_framed(part: Part) -> bool:
    """Whether it is a wall on studs, or one whose layers nobody knows."""
    if part.kind not in WALLS:
        return False
    return not part.layers or any(isinstance(layer, FramedLayer) for layer in part.layers)


def _balloon(case: Case) -> Found:
    packed = [
        piece
        for piece in new_insulation(case)
        if piece.is_fill and piece.group == "dense-pack" and piece.part.kind in WALLS
    ]
    if not packed:
        return Found("balloon")
    materials = tuple(dict.fromkeys(piece.material.name for piece in packed))
    parts = tuple(dict.fromkeys(piece.part.name for piece in packed))
    return Found("balloon, packed", parts, {"materials": materials})


RULE = Rule(
    "fire blocking",
    {
        "platform": Severity.GOOD,
        "balloon": Severity.MEND,
        "balloon, packed": Severity.MEND,
        "not known": Severity.OPEN,
        "not known, no year": Severity.OPEN,
    },
    _judge,
)
