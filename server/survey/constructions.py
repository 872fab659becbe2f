"""Constructions a contractor of US houses finds, as layers of the house file."""

from __future__ import annotations

import functools
import json
from dataclasses import dataclass
from typing import Any

from server.files.house_file import (
    AirLayerEntry,
    AssemblyEntry,
    Entry,
    FramedEntry,
    LayerEntry,
    SolidEntry,
    Typed,
)
from server.files.seeds import SEED_DATA

ASSEMBLIES = SEED_DATA / "assemblies.json"


@dataclass(frozen=True, slots=True)
class Construction:
    """A generic construction.

    kinds: the component kinds it serves. built: first and last year it was usual in, None open.
    shgc: of windows and skylights.
    """

    name: str
    kinds: tuple[str, ...]
    built: tuple[int | None, int | None]
    assembly: AssemblyEntry
    shgc: Entry | None
    source: str
    note: str

    def is_usual_in(self, year_built: int) -> bool:
        """Whether houses of a year usually have it."""
        first, last = self.built
        return (first is None or first <= year_built) and (last is None or year_built <= last)

    @property
    def thickness(self) -> float:
        """All its layers together, m; zero where only U is known."""
        return sum(_thickness(layer) for layer in self.assembly.layers or [])


def _thickness(layer: LayerEntry) -> float:
    if isinstance(layer, SolidEntry | AirLayerEntry):
        return layer.thickness.value
    if isinstance(layer, FramedEntry):
        return layer.framed.depth.value
    return 0.0


@functools.cache
def constructions() -> dict[str, Construction]:
    """Name to construction, in the order of the file: outer walls first, doors last."""
    rows = json.loads(ASSEMBLIES.read_text(encoding="utf-8"))
    return {row["name"]: _construction(row) for row in rows}


def constructions_for(kind: str, year_built: int | None = None) -> list[Construction]:
    """Those that serve a component kind; those usual in the year stand first."""
    serving = [each for each in constructions().values() if kind in each.kinds]
    if year_built is None:
        return serving
    return sorted(serving, key=lambda each: not each.is_usual_in(year_built))


def _construction(row: dict[str, Any]) -> Construction:
    form = {key: row[key] for key in ("layers", "u_value", "storm_u_value") if key in row}
    first, last = row["built"]
    return Construction(
        name=row["name"],
        kinds=tuple(row["for"]),
        built=(first, last),
        assembly=AssemblyEntry.model_validate(form),
        shgc=Typed(None).read(row["shgc"]) if "shgc" in row else None,
        source=row["source"],
        note=row["note"],
    )
