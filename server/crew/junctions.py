"""What a crew watches where parts meet, by the name of the junction and what the work changes.

Of a junction only a name, a length and a transmittance are surveyed: the words of its name tell
what it is. Common practice. To add one: a row in `_SORTS`, its points in `_points`.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from gettext import gettext as _

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.files.material_groups import INSULATION
from server.pricing.growth import wall_growth
from server.pricing.layer_work import LayerWork
from server.pricing.opening_items import holders, is_opening
from server.pricing.steps import Step
from server.recipes.layers import layer_group

# The first that fits names the sort of a junction.
_SORTS = (
    ("chimney", r"chimney|flue|fireplace"),
    ("opening", r"window|door|skylight|opening"),
    ("lower roof", r"porch|lower roof|roof (against|at|on|meets)"),
    ("knee wall", r"knee wall"),
    ("eaves", r"eave|soffit"),
    ("rake", r"rake|verge|gable end"),
    ("slab edge", r"slab"),
    ("foundation", r"foundation|sill|grade|footing|plinth|stem wall"),
    ("floor edge", r"floor|rim|joist"),
    ("corner", r"corner"),
)
SORTS = tuple((code, re.compile(rf"\b({words})", re.IGNORECASE)) for code, words in _SORTS)
GENERAL = "general"
_RIM = re.compile(r"\brim\b", re.IGNORECASE)
# What these meet is a wall; those of the second sort meet walls of the storey below too.
_OF_WALLS = frozenset({"opening", "corner"})
_OF_FLOORS = frozenset({"floor edge", "foundation"})


@dataclass(frozen=True, slots=True)
class WallDoings:
    """What the work does to one outer wall that it changes.

    space: on its warm side. holds: whether openings may be in it. outward, inward: what it grows
    on either face, m. is_upper: whether the space is a buffer under a roof.
    """

    space: str
    holds: bool
    outward: float
    inward: float
    is_wrapped: bool
    is_filled: bool
    is_upper: bool

    def meets(self, junction: hf.JunctionEntry, sort: str) -> bool:
        """Whether the wall and a junction toward outdoors meet, as far as their spaces tell."""
        is_same = self.space == junction.from_
        if sort == "opening":
            return is_same and self.holds
        return is_same or (sort in _OF_FLOORS and not self.is_upper)


@dataclass(frozen=True, slots=True)
class Doings:
    """What the work changes, as far as junctions feel it.

    outward, inward: the most that an outer wall grows on either face, m. brought_in: spaces that
    come inside; vented: roofed ones that stay cold. walls: outer walls that are changed; None
    where nobody asks which. The rest: whether walls or roofs get board outside, bays are filled,
    openings are new, attics, basements or slab edges are insulated, rims from inside.
    """

    outward: float = 0.0
    inward: float = 0.0
    wraps_walls: bool = False
    wraps_roofs: bool = False
    fills: bool = False
    new_openings: bool = False
    attic: bool = False
    basement: bool = False
    edge: bool = False
    rims: bool = False
    brought_in: frozenset[str] = frozenset()
    vented: frozenset[str] = frozenset()
    walls: tuple[WallDoings, ...] | None = None

    @property
    def reaches_openings(self) -> bool:
        """Whether windows or doors come new, or may stand in a wall that is wrapped."""
        walls = self.walls or ()
        return self.new_openings or any(wall.holds and wall.is_wrapped for wall in walls)

    def at(self, junction: hf.JunctionEntry) -> Doings:
        """The same, of walls only those that meet a junction which is one of walls."""
        sort = sort_of(junction.name)
        if self.walls is None or sort not in _OF_WALLS | _OF_FLOORS:
            return self
        met = tuple(wall for wall in self.walls if wall.meets(junction, sort))
        return dataclasses.replace(
            self,
            outward=max((wall.outward for wall in met), default=0.0),
            inward=max((wall.inward for wall in met), default=0.0),
            wraps_walls=any(wall.is_wrapped for wall in met),
            fills=any(wall.is_filled for wall in met),
            walls=met,
        )

    def is_inside(self, junction: hf.JunctionEntry) -> bool:
        """Whether the attic at a junction belongs to the rooms after the work."""
        sides = {junction.from_, junction.to}
        if not sides.isdisjoint(self.brought_in):
            return True
        return bool(self.brought_in) and not self.vented


@dataclass(frozen=True, slots=True)
class JunctionPoints:
    """Junctions at which the same is watched: names with lengths in m, of one sort or several.

    counted: names of those that the figures have made better.
    """

    places: tuple[tuple[str, float], ...]
    points: tuple[str, ...]
    counted: tuple[str, ...]


def sort_of(name: str) -> str:
    """What sort of junction a name tells of."""
    return next((code for code, pattern in SORTS if pattern.search(name)), GENERAL)


def doings_of(
    file: hf.HouseFile,
    strategy: hf.StrategyEntry,
    works: Sequence[LayerWork],
    steps: frozenset[Step],
) -> Doings:
    """What a strategy changes that junctions feel."""
    walls = tuple(_wall_doings(file, strategy, works))
    wrapped = {work.component.kind for work in works if _is_wrapped(work)}
    return Doings(
        outward=max((each.outward for each in walls), default=0.0),
        inward=max((each.inward for each in walls), default=0.0),
        wraps_walls="wall" in wrapped,
        wraps_roofs="roof" in wrapped,
        fills=any(work.fills for work in works),
        new_openings=not steps.isdisjoint({Step.NEW_WINDOW, Step.NEW_DOOR, Step.NEW_SKYLIGHT}),
        attic=any(work.component.kind in ("ceiling", "roof") for work in works),
        basement=any("basement" in work.component.kind and work.inside for work in works),
        edge=bool(strategy.edge_insulation),
        rims=any(_is_rim(work) for work in works),
        brought_in=frozenset(strategy.inside or ()),
        vented=cold_attics(file, strategy),
        walls=walls,
    )


def _wall_doings(
    file: hf.HouseFile, strategy: hf.StrategyEntry, works: Sequence[LayerWork]
) -> Iterator[WallDoings]:
    openings = [each for each in file.components if is_opening(each)]
    holding = {wall.name for each in openings for wall in holders(file, each)}
    attics = _roofed(file)
    for work in works:
        component = work.component
        if component.kind != "wall" or component.to != OUTDOORS:
            continue
        growth = wall_growth(file, component, strategy.change_of(component))
        yield WallDoings(
            space=component.from_,
            holds=component.name in holding,
            outward=growth.outward,
            inward=growth.inward,
            is_wrapped=_is_wrapped(work),
            is_filled=bool(work.fills),
            is_upper=component.from_ in attics,
        )


def _roofed(file: hf.HouseFile) -> frozenset[str]:
    """Buffers under a roof."""
    roofed = {each.from_ for each in file.components if each.kind == "roof"}
    return frozenset(
        name for name, space in file.spaces.items() if name in roofed and not space.inside
    )


def cold_attics(file: hf.HouseFile, strategy: hf.StrategyEntry) -> frozenset[str]:
    """Spaces under a roof that lie outside the boundary after the work."""
    return _roofed(file).difference(strategy.inside or ())


def _is_wrapped(work: LayerWork) -> bool:
    is_outer = work.component.to == OUTDOORS
    return is_outer and any(layer_group(layer) in INSULATION for layer in work.outside)


def _is_rim(work: LayerWork) -> bool:
    """Whether a rim is insulated from inside."""
    is_rim = _RIM.search(work.component.name) is not None
    return is_rim and any(layer_group(layer) in INSULATION for layer in work.inside)


def junction_points(
    file: hf.HouseFile,
    strategy: hf.StrategyEntry,
    doings: Doings,
    write: Callable[[float], str],
) -> tuple[JunctionPoints, ...]:
    """What to watch at every junction of the house, junctions of which the same is said together.

    Openings and corners in walls that all stay as found are left out, unless the figures count on
    better ones. write: how a thickness is written.
    """
    better = strategy.psi or {}
    alike: dict[tuple[str, ...], list[hf.JunctionEntry]] = {}
    for junction in file.junctions:
        points = tuple(_points(junction, doings.at(junction), write))
        if points or junction.name in better:
            alike.setdefault(points or (_general(),), []).append(junction)
    return tuple(
        JunctionPoints(
            places=tuple((each.name, each.length.value) for each in found),
            points=points,
            counted=tuple(
                each.name
                for each in found
                if each.name in better and better[each.name].value < each.psi.value
            ),
        )
        for points, found in alike.items()
    )


def _points(
    junction: hf.JunctionEntry, doings: Doings, write: Callable[[float], str]
) -> Iterator[str]:
    sort = sort_of(junction.name)
    told = []
    if doings.is_inside(junction) and sort in _INSIDE:
        told = list(_INSIDE[sort](doings))
    elif sort in _BY_SORT:
        told = list(_BY_SORT[sort](doings, write))
    is_left = sort in _OF_WALLS and doings.walls == ()
    yield from told or ([] if is_left else [_general()])


def _general() -> str:
    return _(
        "Nothing of its own here: keep air barrier and insulation running through, seal the gap."
    )


def _opening(doings: Doings, write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls or doings.new_openings:
        yield _(
            "Sill pan sloped outward with end dams; flash sill, then jambs, then head, each lapped "
            "over the one below and sealed to the air barrier; leave the sill's outer edge open to "
            "drain."
        )
    if doings.outward > 0.0:
        yield _(
            "Walls grow outward by {growth}: jamb and sill extensions that deep, the sill past the "
            "new cladding by 1 in, head flashing over the strips."
        ).format(growth=write(doings.outward))
    if doings.inward > 0.0:
        yield _("Walls grow inward by {growth}: inside jamb extensions that deep.").format(
            growth=write(doings.inward)
        )
    if doings.fills:
        yield _(
            "Weight pockets and gaps round frames: fill by hand, seal with low-expansion foam or "
            "backer rod, never pressed so that frames bow."
        )


def _corner(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls:
        yield _(
            "Run the air barrier 6 in round the corner; lap boards past each other by turns, "
            "strips doubled at the corner, long screws still into framing."
        )
    if doings.fills:
        yield _("Three-stud corners: drill the hollow by itself, or it stays empty.")


def _eaves(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls or doings.wraps_roofs:
        yield _(
            "Tie the wall's air barrier to the roof's or the ceiling's across the plate before "
            "boards cover it; close or cut back rafter tails where the barrier must pass."
        )
    if doings.wraps_roofs:
        yield _fascia()
    if doings.attic:
        yield _(
            "Full depth of insulation out over the plate; where the attic is vented, baffles "
            "first, the air path 1 in at least, wind kept out of the fill."
        )


def _fascia() -> str:
    return _("Fascia and gutter move out with the roof; insect screen in the gap over the boards.")


def _eaves_of_rooms(doings: Doings) -> Iterator[str]:
    """The attic is inside: wall and roof meet here as walls meet at a corner."""
    yield _(
        "Join the air layer of wall and roof at the eave, over the plate and without a break; "
        "the insulation of the roof meets that of the wall."
    )
    if doings.wraps_walls or doings.wraps_roofs:
        yield _(
            "Do it before boards cover the joint; close or cut back rafter tails where the air "
            "layer must pass."
        )
    if doings.wraps_roofs:
        yield _fascia()


def _rake(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls or doings.wraps_roofs:
        yield _(
            "Air barrier of wall and roof meet and are sealed under the overhang; extend the rake "
            "board by what wall and roof grow, drip edge over it."
        )
    if doings.fills or doings.attic:
        yield _("Fill or block the last bay beside the gable to its end.")


def _floor_edge(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls:
        yield _("Air barrier and board run past the floor's edge without a break; rim sealed.")
    if doings.fills:
        yield _(
            "Block joist bays at the wall before blowing, or the fill runs into the floor; seal "
            "the blocks; check balloon framing storey by storey."
        )
    if doings.rims:
        yield _rim()


def _rim() -> str:
    return _("Rim: board or foam cut tight between joists and sealed on all four edges.")


def _foundation(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls:
        yield _(
            "Stop outside board above grade, 6 in at least, with a screened starter and flashing; "
            "keep a bare strip of foundation in sight for termite inspection; cladding 8 in clear "
            "of soil."
        )
    yield _("Seal the sill to the foundation; no fill or board against a sill that is damp.")
    if doings.basement:
        yield _(
            "Inside board up to the sill and sealed there; leave a strip to inspect for termites."
        )
    if doings.rims:
        yield _rim()


def _lower_roof(doings: Doings, write: Callable[[float], str]) -> Iterator[str]:
    if doings.wraps_walls or doings.wraps_roofs:
        yield _(
            "Kick-out flashing where the lower roof ends at the wall; step flashing to the air "
            "barrier, not to the cladding; cladding 2 in clear of the roofing."
        )
    if doings.outward > 0.0:
        yield _("The wall comes forward by {growth}: cut the lower roofing back for it.").format(
            growth=write(doings.outward)
        )
    if doings.fills:
        yield _("Wall bays behind a porch ceiling: drill above and below it, or open it.")


def _chimney(_doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    yield _(
        "Clearance to combustibles: 2 in round masonry chimneys, what its label says round a metal "
        "flue. No fill and no board against a flue: a sheet-metal dam, higher than the fill."
    )
    yield _("Close the gap with sheet metal and sealant made for fire, never with sprayed foam.")


def _slab_edge(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.edge:
        yield _(
            "Dig by hand near pipes and lines, in lengths, never below the footing; board tight to "
            "the concrete, covered above grade, a strip left bare for termite inspection."
        )
    if doings.wraps_walls:
        yield _("Flashing from the wall's barrier over the top of the edge board.")


def _knee_wall(doings: Doings, _write: Callable[[float], str]) -> Iterator[str]:
    if doings.fills or doings.attic:
        yield _(
            "Block every joist bay under the knee wall with board cut tight and sealed, so that "
            "attic air cannot blow under the floor."
        )


def _knee_wall_of_rooms(_doings: Doings) -> Iterator[str]:
    yield _(
        "Rooms on both sides now: nothing is closed or insulated here; the boundary runs in the "
        "roof, down to the eave."
    )


_BY_SORT: dict[str, Callable[[Doings, Callable[[float], str]], Iterator[str]]] = {
    "opening": _opening,
    "corner": _corner,
    "eaves": _eaves,
    "rake": _rake,
    "floor edge": _floor_edge,
    "foundation": _foundation,
    "lower roof": _lower_roof,
    "chimney": _chimney,
    "slab edge": _slab_edge,
    "knee wall": _knee_wall,
}
# Where the attic beside the junction comes inside.
_INSIDE: dict[str, Callable[[Doings], Iterator[str]]] = {
    "eaves": _eaves_of_rooms,
    "knee wall": _knee_wall_of_rooms,
}
