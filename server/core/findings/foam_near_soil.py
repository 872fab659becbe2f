"""Foam at the soil, where termites would come up through it unseen."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from server.core.assembly import Layer, SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.case import Case, Part
from server.core.findings.layers import MASONRY, is_foam, is_insulation
from server.core.house import Kind

# Where infestation is very heavy the code allows no foam on the outside of foundations or under
# slabs, IRC R318.4 (read in part); the map's very heavy states lie in about zones 1 to 3 (memory).
LAST_HEAVY_ZONE = 3


def _judge(case: Case) -> Iterator[Found]:
    if case.seen.termites == "signs":
        yield Found("signs")
    edges = case.strategy.edge_insulation if case.strategy is not None else None
    parts = [part for part in case.changed if _is_outside(part) or _is_under_slab(part)]
    foamed = [part.name for part in parts if any(map(_is_new_foam(part), part.layers))]
    foamed += [name for name in edges or {} if name not in foamed]
    other = [part.name for part in parts if part.name not in foamed]
    outside = foamed + other
    inside = [part.name for part in case.changed if _is_inside(part)]
    heavy = case.zone is not None and case.zone.number <= LAST_HEAVY_ZONE
    if foamed and heavy:
        yield Found("in the soil, many termites", tuple(foamed))
    watched = other if heavy else outside
    if watched:
        yield Found("in the soil", tuple(watched))
    if inside:
        yield Found("inside the foundation", tuple(inside))
    if (outside or inside) and case.seen.termites is None:
        yield Found("not looked at", tuple(outside + inside))


def _masonry_at(part: Part) -> int | None:
    return next(
        (
            index
            for index, layer in enumerate(part.layers)
            if isinstance(layer, SolidLayer) and layer.material.group in MASONRY
        ),
        None,
    )


def _is_outside(part: Part) -> bool:
    """Whether new board lies on the soil's side of a foundation wall."""
    place = _masonry_at(part)
    if part.kind is not Kind.BASEMENT_WALL or place is None:
        return False
    return any(_is_new_board(part, layer) for layer in part.layers[place:])


def _is_inside(part: Part) -> bool:
    """Whether new board covers a foundation wall from inside."""
    place = _masonry_at(part)
    if part.kind is not Kind.BASEMENT_WALL or place is None:
        return False
    return any(_is_new_board(part, layer) for layer in part.layers[:place])


def _is_under_slab(part: Part) -> bool:
    place = _masonry_at(part)
    if part.kind not in (Kind.SLAB, Kind.BASEMENT_FLOOR) or place is None:
        return False
    return any(map(_is_new_foam(part), part.layers[place:]))


def _is_new_foam(part: Part) -> Callable[[Layer], bool]:
    def check(layer: Layer) -> bool:
        return isinstance(layer, SolidLayer) and is_foam(layer.material) and layer in part.added

    return check


def _is_new_board(part: Part, layer: object) -> bool:
    return isinstance(layer, SolidLayer) and is_insulation(layer.material) and layer in part.added


RULE = Rule(
    "insects at grade",
    {
        "in the soil": Severity.WATCH,
        "in the soil, many termites": Severity.MEND,
        "inside the foundation": Severity.WATCH,
        "signs": Severity.STOP,
        "not looked at": Severity.OPEN,
    },
    _judge,
)
