"""Items for the house as a whole: air, equipment, slab edges, and what every job takes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from gettext import gettext as _

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.files import seeds
from server.pricing.layer_work import LayerWork
from server.pricing.steps import Step
from server.pricing.work_item import WorkItem
from server.recipes.airing import IN_USE_TO_50_PA
from server.recipes.ground import FOAM
from server.units import read_quantity

FLOW_STEP_CFM = 100.0  # air sealing is priced for so much flow at 50 Pa taken off


def _one(step: Step, words: str, count: float = 1.0) -> WorkItem:
    return WorkItem(None, step, None, count, "each", None, words)


def _lump(step: Step, words: str) -> WorkItem:
    return WorkItem(None, step, None, 1.0, "lump sum", None, words)


# Slab edges


def edge_items(file: hf.HouseFile, strategy: hf.StrategyEntry) -> Iterator[WorkItem]:
    """A trench along the edge of each slab, and the board in it."""
    slabs = {component.name: component for component in file.components}
    for name, edge in (strategy.edge_insulation or {}).items():
        found = slabs[name].edge_insulation
        if found is None or _edge_figures(edge) != _edge_figures(found):
            yield from _edge(slabs[name], edge)


def _edge_figures(edge: hf.EdgeInsulationEntry) -> tuple[float | None, ...]:
    entries = (edge.resistance, edge.width, edge.depth, edge.thickness)
    return tuple(None if entry is None else entry.value for entry in entries)


def _edge(slab: hf.ComponentEntry, edge: hf.EdgeInsulationEntry) -> Iterator[WorkItem]:
    length, guess = _edge_length(slab)
    words = _("Trench along the slab's edge") + guess
    estimated = bool(guess)
    step = Step.EDGE_TRENCH
    yield WorkItem(slab.name, step, None, length, "linear ft", None, words, estimated)
    thickness = _edge_thickness(edge)
    volume = length * sum(each.value for each in (edge.depth, edge.width) if each) * thickness
    if volume > 0.0:
        words = _("Board at the slab's edge, {resistance}") + guess
        words = words.format(resistance=edge.resistance.typed)
        step = Step.EDGE_BOARD
        yield WorkItem(slab.name, step, FOAM, volume, "board foot", thickness, words, estimated)


def _edge_length(slab: hf.ComponentEntry) -> tuple[float, str]:
    """Of a slab's edge in m, and the words where it is a guess: no shape has less than a square."""
    if slab.exposed_perimeter is not None:
        return slab.exposed_perimeter.value, ""
    return 4.0 * math.sqrt(slab.area.value), _(", its length estimated from the area")


def _edge_thickness(edge: hf.EdgeInsulationEntry) -> float:
    """As given, or what its resistance takes; m."""
    if edge.thickness is not None and edge.thickness.value > 0.0:
        return edge.thickness.value
    return edge.resistance.value * float(seeds.materials()[FOAM].conductivity)


# Air


def air_items(file: hf.HouseFile, strategy: hf.StrategyEntry) -> Iterator[WorkItem]:
    """Air sealing by what it takes off, tests, ventilation, vents of buffers."""
    yield from _sealing(file, strategy)
    yield from _ventilation(file, strategy)
    yield from _vents(file, strategy)


def _sealing(file: hf.HouseFile, strategy: hf.StrategyEntry) -> Iterator[WorkItem]:
    before = flow_at_50(file.air, volume_inside(file, ()))
    after = flow_at_50(strategy, volume_inside(file, strategy.inside or ()))
    if before is None or after is None:
        return
    if before > after and strategy.air_changes is None and file.air.air_changes is None:
        cfm = (before - after) / read_quantity("1 cfm", "flow")
        words = _("Air sealing: {flow} cfm at 50 Pa taken off").format(flow=f"{cfm:.0f}")
        yield _one(Step.AIR_SEALING, words, cfm / FLOW_STEP_CFM)
    elif before > after:
        words = _("Air sealing of the whole house")
        area, step = file.floor_area.value, Step.AIR_SEALING_BY_AREA
        yield WorkItem(None, step, None, area, "ft2", None, words)
    if _was_tested(file.air):
        yield _one(Step.BLOWER_DOOR_TEST, _("Blower-door test after the work"))
    else:
        yield _one(Step.BLOWER_DOOR_TEST, _("Blower-door tests before and after the work"), 2.0)


def _was_tested(air: hf.AirEntry) -> bool:
    tested = air.ach50 or air.cfm50
    return tested is not None and tested.basis == "measured"


def volume_inside(file: hf.HouseFile, brought_in: Iterable[str]) -> float:
    """The volume inside the thermal boundary, with the spaces that are brought in, m3."""
    inside = {name for name, space in file.spaces.items() if space.inside}
    return sum(file.spaces[name].volume.value for name in inside.union(brought_in))


def flow_at_50(air: hf.AirEntry | hf.StrategyEntry, volume: float) -> float | None:
    """Flow at 50 Pa, m3/s, of a volume inside, m3; None where no leakage is given."""
    if air.cfm50 is not None:
        return air.cfm50.value
    if air.ach50 is not None:
        return air.ach50.value * volume / 3600.0
    if air.air_changes is not None:
        return air.air_changes.value * IN_USE_TO_50_PA * volume / 3600.0
    return None


def _ventilation(file: hf.HouseFile, strategy: hf.StrategyEntry) -> Iterator[WorkItem]:
    new = strategy.ventilation
    if new is None or new.flow.value <= 0.0:
        return
    if file.air.ventilation is not None and _fan(new) == _fan(file.air.ventilation):
        return
    flow = new.flow.typed
    if not new.balanced:
        words = _("One-way fan, {flow}").format(flow=flow)
        yield _one(Step.ONE_WAY_VENTILATION, words)
    elif new.heat_recovery is not None and new.heat_recovery.value > 0.0:
        words = _("Balanced ventilation with heat recovery, {flow}").format(flow=flow)
        yield _one(Step.RECOVERY_VENTILATION, words)
    else:
        words = _("Balanced ventilation, {flow}").format(flow=flow)
        yield _one(Step.BALANCED_VENTILATION, words)


def _fan(ventilation: hf.VentilationEntry) -> tuple[float, float, bool]:
    recovery = ventilation.heat_recovery
    share = 0.0 if recovery is None else recovery.value
    return ventilation.flow.value, share, ventilation.balanced


def _vents(file: hf.HouseFile, strategy: hf.StrategyEntry) -> Iterator[WorkItem]:
    for name in strategy.inside or ():
        if _air_changes(file.spaces[name]) > 0.0:
            words = _("Close the vents of the {space}").format(space=name)
            yield _one(Step.CLOSE_VENTS, words)
    for name, space in (strategy.spaces or {}).items():
        if space.air_changes.value != _air_changes(file.spaces[name]):
            words = _("Change the vents of the {space}").format(space=name)
            yield _one(Step.CHANGE_VENTS, words)


def _air_changes(space: hf.SpaceEntry) -> float:
    return 0.0 if space.air_changes is None else space.air_changes.value


# Equipment


def equipment_items(file: hf.HouseFile, strategy: hf.StrategyEntry) -> Iterator[WorkItem]:
    """New heating and cooling, where they differ from what was found."""
    if _is_new(strategy.heating, file.heating):
        yield _one(Step.NEW_HEATING, _("New heating equipment"))
    if _is_new(strategy.cooling, file.cooling):
        yield _one(Step.NEW_COOLING, _("New cooling equipment"))


def _is_new(new: hf.PlantEntry | None, found: hf.PlantEntry | None) -> bool:
    """Ducts may be mended or found to lie inside now: the equipment stays."""
    if new is None:
        return False
    if found is None:
        return True
    return (new.fuel, new.efficiency.value) != (found.fuel, found.efficiency.value)


# The job


def job_items(
    file: hf.HouseFile, works: Sequence[LayerWork], steps: Iterable[Step]
) -> Iterator[WorkItem]:
    """What a job takes whatever is done in it; scaffold where the outside is worked on high up."""
    is_outside = Step.DRILL_OUTSIDE in set(steps) or any(map(_is_outside_work, works))
    if is_outside and file.storeys.value > 1.0:
        yield _lump(Step.SCAFFOLD, _("Scaffold"))
    yield _lump(Step.SET_UP, _("Set-up, protection and cleaning"))
    yield _lump(Step.PERMITS, _("Permits"))


def _is_outside_work(work: LayerWork) -> bool:
    component = work.component
    if component.kind not in ("wall", "roof") or component.to != OUTDOORS:
        return False
    return bool(work.removed_outside or work.outside)
