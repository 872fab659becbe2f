"""What is put into bays that stay closed on both sides."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import FramedLayer
from server.core.findings.base import Fact, Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import insulates
from server.core.findings.wall_growth import is_same_bay
from server.core.house import Kind


def refilled(part: Part) -> FramedLayer | None:
    """The bay that a strategy fills, as it stands after; None where it fills none.

    Shapes: one component. Range: any. Raises: nothing. Source: definition.
    """
    for layer in part.added:
        if isinstance(layer, FramedLayer) and insulates(layer):
            for before in part.layers_before:
                if isinstance(before, FramedLayer) and is_same_bay(before, layer):
                    return layer if before.fill is not layer.fill else None
    return None


def stays_closed(part: Part) -> bool:
    """Whether nothing comes off either face of a part that was closed.

    Shapes: one component. Range: any. Raises: nothing. Source: definition.
    """
    bay = refilled(part)
    return bay is not None and not bay.open and not part.removed


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        bay = refilled(part)
        if bay is None or not stays_closed(part):
            continue
        assert bay.fill is not None
        if bay.fill.group == "dense-pack" and "damp-spray" not in bay.fill.name:
            yield Found("blown", (part.name,))
        elif bay.fill.group == "loose-fill":
            settles = part.kind in (Kind.WALL, Kind.PARTITION, Kind.ROOF)
            yield Found("settles" if settles else "blown", (part.name,), _fill(bay))
        elif part.seen.access == "open":
            yield Found("open", (part.name,))
        elif part.seen.access is None:
            yield Found("not looked at", (part.name,), _fill(bay))
        elif bay.fill.group == "sprayed-foam":
            yield Found("foam", (part.name,), _fill(bay))
        else:
            yield Found("batts", (part.name,), _fill(bay))


def _fill(bay: FramedLayer) -> dict[str, Fact]:
    return {"fill": bay.fill.name if bay.fill is not None else ""}


RULE = Rule(
    "closed bays",
    {
        "blown": Severity.GOOD,
        "settles": Severity.WATCH,
        "open": Severity.GOOD,
        "foam": Severity.MEND,
        "batts": Severity.STOP,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
