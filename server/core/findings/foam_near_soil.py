"""Insulation at grade, where termites would come up behind it unseen."""

from __future__ import annotations

from collections.abc import Iterator

from server.core.assembly import SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import is_foam, is_insulation
from server.core.house import GROUND, Kind

LAST_HEAVY_ZONE = 3  # very heavy infestation, IRC Figure R301.2(7): about zones 1 to 3 (memory)


def _judge(case: Case) -> Iterator[Found]:
    if case.seen.termites == "signs":
        yield Found("signs")
    names = [part.name for part in case.parts if part.is_changed and _puts_board_at_grade(part)]
    edges = case.strategy.edge_insulation if case.strategy is not None else None
    names += [name for name in edges or {} if name not in names]
    if not names:
        return
    heavy = case.zone is not None and case.zone.number <= LAST_HEAVY_ZONE
    yield Found("at grade, many termites" if heavy else "at grade", tuple(names))
    if case.seen.termites is None:
        yield Found("not looked at", tuple(names))


def _puts_board_at_grade(part: Part) -> bool:
    """Foam on a foundation, from inside or outside, or any board outside of one."""
    if part.component.to_space != GROUND or part.kind is not Kind.BASEMENT_WALL:
        return False
    kept = [index for index, layer in enumerate(part.layers) if layer not in part.added]
    return any(
        isinstance(layer, SolidLayer)
        and layer in part.added
        and (is_foam(layer.material) or (is_insulation(layer.material) and index > max(kept)))
        for index, layer in enumerate(part.layers)
    )


RULE = Rule(
    "insects at grade",
    {
        "at grade": Severity.WATCH,
        "at grade, many termites": Severity.MEND,
        "signs": Severity.STOP,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
