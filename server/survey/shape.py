"""The shape of a house: lengths, areas and volumes from the few that were typed.

A rectangular house under a gable roof whose ridge runs along the front. All sizes are overall
internal ones: outer lengths less the walls, partitions and the floors between storeys not taken
off. As in the demo house, the roof springs where the inside of the wall meets the top of the
uppermost joists, and the foundation is taken on the same plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from gettext import gettext as _

from server.survey.checks import Checked
from server.survey.errors import OutlineError
from server.survey.figures import Figure
from server.survey.form import FACES
from server.units import System, format_quantity

LEAST_INSIDE = 2.0  # m, from wall to wall
LEAST_RIDGE = 2.0  # m, above the floor of a half storey: less is no room
HEADROOM = 5 * 0.3048  # m: floor of a half storey counts where this much stands above it
LEAST_STRIP = 0.3  # m: a flat ceiling narrower than this is none
_RIGHT, _BACK, _LEFT = (
    270.0,
    180.0,
    90.0,
)  # degrees on from the front; right is seen from the street


@dataclass(frozen=True, slots=True)
class Roof:
    """A gable roof over the span from front to back.

    rise: height up to which its underside is a room's ceiling, None where there is no such part.
    strip: breadth of the flat ceiling above that, from front to back; None where there is none.
    """

    ridge: Figure  # its length
    span: Figure
    pitch: Figure  # degrees
    rise: Figure | None
    strip: Figure | None

    @property
    def plane(self) -> Figure:
        """Area of one plane, from wall to ridge."""
        return self.ridge * self.span / 2.0 / self.pitch.cosine()

    @property
    def attic_plane(self) -> Figure | None:
        """The part of one plane that lies over the attic."""
        if self.strip is None:
            return None
        return self.ridge * self.strip / 2.0 / self.pitch.cosine()

    @property
    def sloped_ceiling(self) -> Figure | None:
        """The part of one plane that is a room's ceiling."""
        if self.rise is None:
            return None
        if self.strip is None:
            return self.plane
        return self.ridge * (self.span - self.strip) / 2.0 / self.pitch.cosine()

    @property
    def flat_ceiling(self) -> Figure | None:
        """The ceiling under the attic."""
        return None if self.strip is None else self.ridge * self.strip

    @property
    def attic_gable(self) -> Figure | None:
        """One gable of the attic."""
        if self.strip is None:
            return None
        return self.strip * self.strip / 4.0 * self.pitch.tangent()

    @property
    def room_gable(self) -> Figure | None:
        """The part of one gable that stands before rooms."""
        if self.rise is None:
            return None
        if self.strip is None:
            return self.span * self.rise / 2.0
        return (self.span + self.strip) / 2.0 * self.rise

    @property
    def attic_volume(self) -> Figure | None:
        """Air of the attic."""
        return None if self.attic_gable is None else self.attic_gable * self.ridge


@dataclass(frozen=True, slots=True)
class Shape:
    """Everything that is measured along the house, in m, m2 and m3.

    front and side: the walls from inside; sides: name of a wall to its azimuth. wall_height: from
    the lowest floor to where the roof springs.
    """

    sides: dict[str, float]
    front: Figure
    side: Figure
    wall_height: Figure
    roof: Roof
    floor_area: Figure
    volume: Figure
    upper_floors: int

    @property
    def footprint(self) -> Figure:
        """Plan from inside."""
        return self.front * self.side

    @property
    def perimeter(self) -> Figure:
        """Round the plan, from inside."""
        return (self.front + self.side) * 2.0

    def gross_wall(self, name: str) -> Figure:
        """One outer wall, openings not taken off; a side wall has the gable before rooms in it."""
        if name in ("front", "back"):
            return self.front * self.wall_height
        wall = self.side * self.wall_height
        gable = self.roof.room_gable
        return wall if gable is None else wall + gable


def shape_of(answers: Checked) -> Shape:
    """The shape that follows. Raises OutlineError where none does."""
    outline = answers.outline
    front, side = _inside(answers)
    full, half = int(outline.storeys), bool(outline.storeys % 1)
    ceiling = answers.figure("ceiling_height")
    upper_floors = full - 1 + half
    height = ceiling * float(full)
    if upper_floors:
        height = height + answers.figure("floor_thickness") * float(upper_floors)
    roof = _roof(answers, front, side, half)
    volume = front * side * ceiling * float(full)
    if roof.room_gable is not None:
        volume = volume + front * roof.room_gable
    floor_area = front * side * float(full)
    if half:
        floor_area = floor_area + front * (side - Figure(2 * HEADROOM, True) / roof.pitch.tangent())
    return Shape(_sides(outline.faces), front, side, height, roof, floor_area, volume, upper_floors)


def _sides(faces: str) -> dict[str, float]:
    azimuth = FACES.index(faces) * 45.0
    turns = {"front": 0.0, "right": _RIGHT, "back": _BACK, "left": _LEFT}
    return {name: (azimuth + turn) % 360.0 for name, turn in turns.items()}


def _inside(answers: Checked) -> tuple[Figure, Figure]:
    """Front and side wall, from inside."""
    # where it follows from the wall chosen, an inch of it is nothing beside what the tape gave
    walls = Figure(answers.figure("wall_thickness").value * 2.0, measured=True)
    length = answers.figure("length") - walls
    width = answers.figure("width") - walls
    if min(length.value, width.value) < LEAST_INSIDE:
        least = format_quantity(LEAST_INSIDE, "length", answers.system)
        words = _("less than {least} is left between walls of this thickness").format(least=least)
        raise OutlineError("wall_thickness", words)
    looks_along_the_meridian = FACES.index(answers.outline.faces) // 2 % 2 == 0
    return (length, width) if looks_along_the_meridian else (width, length)


def _roof(answers: Checked, front: Figure, side: Figure, half: bool) -> Roof:
    pitch = answers.figure("roof_pitch")
    ridge_height = side / 2.0 * pitch.tangent()
    if half and ridge_height.value < LEAST_RIDGE:
        raise OutlineError("roof_pitch", _too_flat(ridge_height.value, answers.system))
    if answers.outline.attic == "sloped ceiling":
        return Roof(front, side, pitch, ridge_height, None)
    if not half:
        return Roof(front, side, pitch, None, side)
    ceiling = answers.figure("ceiling_height")
    strip = side - ceiling * 2.0 / pitch.tangent()
    if strip.value < LEAST_STRIP:  # the slopes meet before the ceiling's height is reached
        return Roof(front, side, pitch, ridge_height, None)
    return Roof(front, side, pitch, ceiling, strip)


def _too_flat(ridge_height: float, system: System) -> str:
    height = format_quantity(ridge_height, "length", system)
    return _("under a roof this flat a half storey is {height} high at the ridge").format(
        height=height
    )
