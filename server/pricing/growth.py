"""How much thicker a wall gets under a change, outward and inward."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.pricing.layer_work import LayerWork, layer_work


@dataclass(frozen=True, slots=True)
class WallGrowth:
    """Growth of each face in m, below zero where more comes off than goes on."""

    outward: float
    inward: float


def wall_growth(
    file: hf.HouseFile, component: hf.ComponentEntry, change: hf.ChangeEntry | None
) -> WallGrowth:
    """What a change adds to a component less what it takes off, on each side of what stays.

    Layers of which only R or U is known have no thickness and count nothing. A frame that stood
    there already is no growth.
    """
    work = None if change is None else layer_work(file, component, change)
    if work is None:
        return WallGrowth(0.0, 0.0)
    return WallGrowth(
        outward=_added(work, work.outside) - _thickness(work.removed_outside),
        inward=_added(work, work.inside) - _thickness(work.removed_inside),
    )


def most_outward(file: hf.HouseFile, strategy: hf.StrategyEntry) -> float:
    """The most that any wall to outdoors grows outward under a strategy, m; never below zero."""
    grown = (
        wall_growth(file, wall, strategy.change_of(wall)).outward
        for wall in file.components
        if wall.kind == "wall" and wall.to == OUTDOORS
    )
    return max([0.0, *grown])


def _added(work: LayerWork, layers: Iterable[hf.LayerEntry]) -> float:
    if work.stands_on_framing:
        layers = [layer for layer in layers if not isinstance(layer, hf.FramedEntry)]
    return _thickness(layers)


def _thickness(layers: Iterable[hf.LayerEntry]) -> float:
    total = 0.0
    for layer in layers:
        if isinstance(layer, hf.FramedEntry):
            total += layer.framed.depth.value
        elif not isinstance(layer, hf.ResistanceEntry):
            total += layer.thickness.value
    return total
