"""Spaces, components and junctions of a first house, in the form of the house file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from server.files.house_file import Entry
from server.survey.checks import Checked
from server.survey.figures import Figure, typed
from server.survey.openings import DOOR_AREA, Openings
from server.survey.shape import Shape

INDOORS, OUTDOORS, GROUND, ATTIC = "indoors", "outdoors", "ground", "attic"
UPRIGHT = Entry("90 deg", 90.0)

# Air changes of buffers, 1/h: ISO 13789 by how far they are open (memory).
ATTIC_FIRST_VENTED_AT_EAVES = 1960  # common practice
_LOUVERS, _EAVES_AND_RIDGE = "3 1/hour", "10 1/hour"
_FOUNDATION_AIR = {"basement": "0.5 1/hour", "crawlspace": "3 1/hour"}

# Linear transmittances, W/(m K), for overall internal dimensions: the usual range of such edges,
# after the default values of ISO 14683 (memory). An empty wall leaks little less than its edges.
_PSI = {
    "window and door edges": "0.05 W/(m*K)",
    "outside corners": "0.10 W/(m*K)",
    "floor edge at the foundation": "0.12 W/(m*K)",
    "slab edge": "0.20 W/(m*K)",
    "upper floor edge": "0.05 W/(m*K)",
    "eaves": "0.05 W/(m*K)",
    "rakes": "0.06 W/(m*K)",
}
_DARK_ROOF, _MASONRY, _PAINT = 0.85, 0.7, 0.5  # share of the sun taken up, as in the demo house
_WINDOW_SHADING = 0.8  # trees, neighbours, screens; a guess


@dataclass(frozen=True, slots=True)
class Parts:
    """Writes the parts of one house."""

    answers: Checked
    shape: Shape
    openings: Openings

    def spaces(self) -> dict[str, dict[str, Any]]:
        """Indoors and the buffers."""
        spaces: dict[str, dict[str, Any]] = {
            INDOORS: {"inside": True, "volume": self._volume(self.shape.volume)}
        }
        attic = self.shape.roof.attic_volume
        if attic is not None:
            year = self.answers.outline.year_built or 0
            air = _EAVES_AND_RIDGE if year >= ATTIC_FIRST_VENTED_AT_EAVES else _LOUVERS
            spaces[ATTIC] = self._buffer(attic, air)
        below = self.answers.outline.foundation
        if below != "slab":
            volume = self.shape.footprint * self.answers.figure("foundation_height")
            spaces[below] = self._buffer(volume, _FOUNDATION_AIR[below])
        return spaces

    def components(self) -> list[dict[str, Any]]:
        """Walls with their openings, what is above, what is below."""
        walls = [part for name in self.shape.sides for part in self._wall(name)]
        below = self.answers.outline.foundation
        lowest = [self._slab()] if below == "slab" else self._foundation(below)
        return [*walls, *self._above(), *lowest]

    def junctions(self) -> list[dict[str, Any]]:
        """The edges that every house has, and those of its foundation and roof."""
        shape, roof = self.shape, self.shape.roof
        slab = self.answers.outline.foundation == "slab"
        lengths = {
            "window and door edges": self.openings.edge,
            "outside corners": shape.wall_height * 4.0,
            "slab edge" if slab else "floor edge at the foundation": shape.perimeter,
            "eaves": shape.front * 2.0,
        }
        if shape.upper_floors:
            lengths["upper floor edge"] = shape.perimeter * float(shape.upper_floors)
        if roof.sloped_ceiling is not None:
            lengths["rakes"] = roof.sloped_ceiling / roof.ridge * 4.0
        return [
            {
                "name": name,
                "from": INDOORS,
                "to": OUTDOORS,
                "length": length.entry("length", self.answers.system),
                "psi": typed("linear_transmittance", _PSI[name], "default"),
            }
            for name, length in lengths.items()
        ]

    # Walls

    def _wall(self, name: str) -> list[dict[str, Any]]:
        facing = {"azimuth": _degrees(self.shape.sides[name]), "tilt": UPRIGHT}
        wall = self._part(f"{name} wall", "wall", self.openings.walls[name], "wall", facing)
        parts = [wall | _painted() | {"access": "closed", "reached_from": "outside"}]
        if name in self.openings.windows:
            parts.append(self._windows(name, facing))
        if name == "front":
            parts.append(self._part("front door", "door", DOOR_AREA, "door", facing) | _painted())
        return parts

    def _windows(self, name: str, facing: dict[str, Entry]) -> dict[str, Any]:
        area = self.openings.windows[name]
        windows = self._part(f"{name} windows", "window", area, "window", facing)
        windows["shading"] = typed(None, _WINDOW_SHADING, "guess")
        shgc = self.answers.built["window"].shgc
        return windows if shgc is None else windows | {"shgc": shgc}

    # Above

    def _above(self) -> list[dict[str, Any]]:
        """Sloped ceilings; the flat ceiling with the roof and the gables of the attic over it."""
        roof = self.shape.roof
        parts = []
        if roof.sloped_ceiling is not None:
            closed = {"access": "closed", "reached_from": "inside"}
            for side in ("front", "back"):
                plane = self._plane(f"{side} sloped ceiling", side, INDOORS, roof.sloped_ceiling)
                parts.append(plane | closed)
        if roof.flat_ceiling is None or roof.attic_plane is None or roof.attic_gable is None:
            return parts
        ceiling = self._part("ceiling", "ceiling", roof.flat_ceiling, "ceiling", to=ATTIC)
        parts.append(ceiling | _open_inside())
        for side in ("front", "back"):
            plane = self._plane(f"{side} attic roof", side, ATTIC, roof.attic_plane)
            parts.append(plane | _open_inside())
        for side in ("right", "left"):
            parts.append(self._attic_gable(side, roof.attic_gable))
        return parts

    def _plane(self, name: str, side: str, space: str, area: Figure) -> dict[str, Any]:
        facing = {
            "azimuth": _degrees(self.shape.sides[side]),
            "tilt": self.answers.entries["roof_pitch"],
        }
        field = "sloped_ceiling" if space == INDOORS else "attic_roof"
        plane = self._part(name, "roof", area, field, facing, from_=space)
        return plane | {"solar_absorptance": typed(None, _DARK_ROOF, "default")}

    def _attic_gable(self, side: str, area: Figure) -> dict[str, Any]:
        facing = {"azimuth": _degrees(self.shape.sides[side]), "tilt": UPRIGHT}
        gable = self._part(f"{side} attic gable", "wall", area, "attic_gable", facing, from_=ATTIC)
        return gable | _painted() | {"access": "open", "reached_from": "outside"}

    # Below

    def _slab(self) -> dict[str, Any]:
        slab = self._part("slab", "slab", self.shape.footprint, "slab", to=GROUND)
        return slab | {
            "exposed_perimeter": self._length(self.shape.perimeter),
            "wall_thickness": self.answers.entries["wall_thickness"],
        }

    def _foundation(self, space: str) -> list[dict[str, Any]]:
        """The floor over a basement or crawlspace and what closes that in.

        A wall all round has no azimuth: it is spread evenly round the compass.
        """
        reached = "inside" if space == "basement" else "outside"
        perimeter, depth = self.shape.perimeter, self.answers.figure("foundation_depth")
        over = self._part(f"floor over the {space}", "floor", self.shape.footprint, "floor")
        in_ground = {"depth_below_grade": self.answers.entries["foundation_depth"]}
        below = self._part(
            f"{space} wall below grade",
            "basement wall",
            perimeter * depth,
            "foundation_wall",
            in_ground,
        )
        in_ground = in_ground | {
            "exposed_perimeter": self._length(perimeter),
            "wall_thickness": self._foundation_thickness(),
        }
        ground = self._part(
            f"{space} floor",
            "basement floor",
            self.shape.footprint,
            "foundation_floor",
            in_ground,
        )
        parts = [over | {"to": space}]
        parts += [part | {"from": space, "to": GROUND} for part in (below, ground)]
        parts += [part | {"from": space} for part in self._above_grade(space)]
        return [part | {"access": "open", "reached_from": reached} for part in parts]

    def _above_grade(self, space: str) -> list[dict[str, Any]]:
        perimeter = self.shape.perimeter
        rim = perimeter * self.answers.figure("floor_thickness")
        parts = [self._part("rim joist", "wall", rim, "rim_joist", {"tilt": UPRIGHT}) | _painted()]
        height = self.answers.figure("foundation_height") - self.answers.figure("foundation_depth")
        if height.value > 0.01:  # m; else the wall ends at grade
            wall = self._part(
                f"{space} wall above grade",
                "wall",
                perimeter * height,
                "foundation_wall",
                {"tilt": UPRIGHT},
            )
            parts.append(wall | {"solar_absorptance": typed(None, _MASONRY, "default")})
        return parts

    def _foundation_thickness(self) -> Entry:
        millimetres = self.answers.built["foundation_wall"].thickness * 1000.0
        return typed("thickness", f"{millimetres:.0f} mm", "default")

    # Writing

    def _part(
        self,
        name: str,
        kind: str,
        area: Figure,
        field: str,
        more: dict[str, Entry] | None = None,
        *,
        from_: str = INDOORS,
        to: str = OUTDOORS,
    ) -> dict[str, Any]:
        return {
            "name": name,
            "kind": kind,
            "from": from_,
            "to": to,
            "area": area.entry("area", self.answers.system),
            "assembly": self.answers.built[field].name,
            **(more or {}),
        }

    def _buffer(self, volume: Figure, air_changes: str) -> dict[str, Any]:
        air = typed("air_change_rate", air_changes, "guess")
        return {"inside": False, "volume": self._volume(volume), "air_changes": air}

    def _volume(self, volume: Figure) -> Entry:
        return volume.entry("volume", self.answers.system)

    def _length(self, length: Figure) -> Entry:
        return length.entry("length", self.answers.system)


def _degrees(azimuth: float) -> Entry:
    return typed("angle", f"{azimuth:.0f} deg")


def _painted() -> dict[str, Entry]:
    return {"solar_absorptance": typed(None, _PAINT, "default")}


def _open_inside() -> dict[str, str]:
    return {"access": "open", "reached_from": "inside"}
