"""Small invented houses to try the recipes on."""

from __future__ import annotations

import json
from typing import Any

from server.core.strategy import apply
from server.files.building import Project, read_project
from server.files.house_file import StrategyEntry
from tests.conftest import SMALL_HOUSE

Json = dict[str, Any]

PLASTER = {"material": "lime plaster on wood lath", "thickness": "7/8 in", "name": "inside face"}
BOARDS = {"material": "softwood board sheathing", "thickness": "3/4 in"}
SIDING = {"material": "wood lap siding", "thickness": "1/2 in", "name": "old siding"}
FELT = {"material": "asphalt felt", "thickness": "0.04 in", "name": "old felt"}
SHINGLES = {"material": "asphalt shingle", "thickness": "1/2 in", "name": "old roofing"}
BRICK = {"material": "old soft brick", "thickness": "12 in", "name": "brick"}
FLOORING = {"material": "softwood strip flooring", "thickness": "3/4 in"}


def solid(material: str, thickness: str = "1/2 in", **keys: Any) -> Json:
    """A layer of one material."""
    return {"material": material, "thickness": thickness, **keys}


def bays(fill: str = "air", depth: str = "3 1/2 in", name: str | None = None, **keys: Any) -> Json:
    """A framed layer."""
    framed = {"framing": "softwood", "fraction": 0.25, "fill": fill, "depth": depth, **keys}
    return {"framed": framed} | ({"name": name} if name else {})


def part(name: str, kind: str, sides: tuple[str, str], layers: list[Json], **keys: Any) -> Json:
    """A component with its layers; `document` gives it an assembly of its own."""
    return {
        "name": name,
        "kind": kind,
        "from": sides[0],
        "to": sides[1],
        "area": "200 ft^2",
        "layers": layers,
        **keys,
    }


def document(parts: list[Json], *, zone: str | None = "4A", **keys: Any) -> Json:
    """A house file of these parts; spaces named beside "indoors" are buffers."""
    base = json.loads(SMALL_HOUSE.read_text())
    climate = base["climate"] | {"iecc_zone": zone}
    if zone is None:
        del climate["iecc_zone"]
    names = {side for each in parts for side in (each["from"], each["to"])}
    buffers = names - {"indoors", "outdoors", "ground"}
    spaces: Json = {"indoors": {"inside": True, "volume": "10000 ft^3"}}
    for name in sorted(buffers):
        spaces[name] = {"inside": False, "volume": "2500 ft^3", "air_changes": "3 1/hour"}
    components = []
    assemblies = {}
    for each in parts:
        component = dict(each)
        layers = component.pop("layers")
        if layers:
            component["assembly"] = f"{each['name']} as found"
            assemblies[component["assembly"]] = {"layers": layers}
        components.append(component)
    cut = ("junctions", "strategies", "heating", "cooling")
    house = {key: value for key, value in base.items() if key not in cut}
    plant = {"fuel": "natural gas", "efficiency": 0.8}
    return house | {
        "climate": climate,
        "heating": plant,
        "spaces": spaces,
        "assemblies": assemblies,
        "components": components,
        **keys,
    }


def project(parts: list[Json], **keys: Any) -> Project:
    """The project of these parts."""
    return read_project(json.dumps(document(parts, **keys)))


def written(strategy: StrategyEntry) -> Json:
    """A strategy as the file holds it."""
    return strategy.model_dump(mode="python", by_alias=True, exclude_unset=True)


def rebuilt(found: Project, made: tuple[StrategyEntry, ...]) -> Project:
    """The project read again from its file with strategies added; refuses what does not apply."""
    content = found.file.as_written()
    content["strategies"] = [*content.get("strategies", []), *(written(each) for each in made)]
    again = read_project(json.dumps(content))
    for strategy in again.strategies:
        apply(strategy, again.house)
    return again


# Parts that many tests share.
WALL = part(
    "wall of studs",
    "wall",
    ("indoors", "outdoors"),
    [PLASTER, bays(), BOARDS, SIDING],
    access="closed",
)
CEILING = part(
    "upper ceiling",
    "ceiling",
    ("indoors", "attic"),
    [PLASTER, bays("cellulose loose fill", "5 1/2 in", fill_thickness="3 in", open=True)],
    access="open",
)
ROOF = part("attic roof", "roof", ("attic", "outdoors"), [BOARDS, FELT, SHINGLES], access="open")
GABLE = part("gable", "wall", ("attic", "outdoors"), [BOARDS, SIDING], access="open")
FLOOR = part(
    "floor over the basement", "floor", ("indoors", "basement"), [FLOORING, BOARDS], access="open"
)
DEEP = {"depth_below_grade": "6 ft", "exposed_perimeter": "100 ft"}
BASEMENT_WALL = part("basement wall", "basement wall", ("basement", "ground"), [BRICK], **DEEP)
BASEMENT_FLOOR = part(
    "basement floor", "basement floor", ("basement", "ground"), [solid("concrete", "3 in")], **DEEP
)
SLAB = part(
    "sun-room slab",
    "slab",
    ("indoors", "ground"),
    [solid("concrete", "4 in")],
    exposed_perimeter="34 ft",
)
WHOLE = [WALL, CEILING, ROOF, GABLE, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR, SLAB]
