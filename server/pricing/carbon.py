"""Embodied carbon of what is added: what making the materials let out."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable
from dataclasses import dataclass

from server.files import seeds
from server.pricing.layer_items import STRIP_WIDTH
from server.pricing.steps import MATERIAL_STEPS, PRODUCT_STEPS, Step
from server.pricing.work_item import WorkItem


@dataclass(frozen=True, slots=True)
class EmbodiedCarbon:
    """kg of carbon dioxide and the like by item, and the items for which there are no figures."""

    counted: tuple[tuple[WorkItem, float], ...]
    without_figures: tuple[WorkItem, ...]

    @property
    def kg(self) -> float:
        """Of all items together."""
        return math.fsum(kg for _item, kg in self.counted)


def embodied_carbon(items: Iterable[WorkItem]) -> EmbodiedCarbon:
    """Density times volume times the kg let out for a kg, of every material that is added.

    Both figures are those of the material table; one of the house's own has none. What is taken
    off was made long ago and does not count.
    """
    counted = []
    unknown = []
    for item in items:
        if item.step in PRODUCT_STEPS:
            unknown.append(item)
        elif item.step in MATERIAL_STEPS or item.step is Step.FURRING:
            per_volume = _per_volume().get(item.material or "")
            volume = added_volume(item)
            if per_volume is None or volume is None:
                unknown.append(item)
            else:
                counted.append((item, per_volume * volume))
    return EmbodiedCarbon(tuple(counted), tuple(unknown))


def added_volume(item: WorkItem) -> float | None:
    """The volume of the material of an item, m3; None where it cannot be told."""
    if item.unit == "board foot":
        return item.quantity
    if item.thickness is None:
        return None
    if item.unit == "ft2":
        return item.quantity * item.thickness
    if item.step is Step.FURRING:
        return item.quantity * item.thickness * STRIP_WIDTH
    return None


def years_to_repay(embodied: EmbodiedCarbon, yearly_saving_kg: float) -> float | None:
    """Years until what is saved in a year, kg, has made good; None where nothing is saved."""
    if not yearly_saving_kg > 0.0:
        return None
    return embodied.kg / yearly_saving_kg


@functools.cache
def _per_volume() -> dict[str, float]:
    """Name of a material to the kg let out for one m3 of it."""
    known = {}
    for row in seeds.material_rows():
        density = row.figures["density_kg_per_m3"]
        carbon = row.figures["embodied_carbon_kg_per_kg"]
        if density and carbon:
            known[row.name] = float(density) * float(carbon)
    return known
