"""Windows and the front door in the walls, and what is left of the walls."""

from __future__ import annotations

from dataclasses import dataclass
from gettext import gettext as _

from server.survey.checks import Checked
from server.survey.errors import OutlineError
from server.survey.figures import Figure
from server.survey.shape import Shape
from server.units import format_quantity

_FOOT = 0.3048
DOOR_AREA = Figure(20 * _FOOT**2, False)  # 3 ft by 6 ft 8 in
DOOR_EDGE = Figure(2 * (3 + 20 / 3) * _FOOT, False)
WINDOW_EDGE = 16 / 15 / _FOOT  # m per m2 of window: 3 ft by 5 ft, as most
LEAST_WALL = 0.1  # of a wall's area: less wall than this holds no window


@dataclass(frozen=True, slots=True)
class Openings:
    """Areas by wall: windows (none where there are none), and net walls."""

    windows: dict[str, Figure]
    walls: dict[str, Figure]
    edge: Figure  # length round all windows and the door


def openings_of(answers: Checked, shape: Shape) -> Openings:
    """Windows spread over the walls in proportion to their area, the door in the front.

    How they are spread is a guess, so no window or net wall counts as measured.
    Raises OutlineError where the walls do not hold them.
    """
    gross = {name: shape.gross_wall(name) for name in shape.sides}
    whole = sum(wall.value for wall in gross.values())
    windows = answers.figure("window_area")
    share = Figure(windows.value / whole, False)
    walls = {name: wall - wall * share for name, wall in gross.items()}
    walls["front"] = walls["front"] - DOOR_AREA
    for name, wall in walls.items():
        if wall.value < LEAST_WALL * gross[name].value:
            held = format_quantity(whole, "area", answers.system)
            words = _("the walls have {area} in all and do not hold these windows and the door")
            raise OutlineError("window_area", words.format(area=held))
    spread = {name: wall * share for name, wall in gross.items()} if windows.value > 0 else {}
    return Openings(spread, walls, windows * WINDOW_EDGE + DOOR_EDGE)
