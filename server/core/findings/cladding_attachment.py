"""How new cladding hangs through continuous insulation, and how roof board is held."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from server.core.assembly import AirLayer, FramedLayer, Layer, SolidLayer
from server.core.fasteners import screw_length, stock_length
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.brick_veneer import covered_veneer_at, is_veneer
from server.core.findings.case import Case, Part
from server.core.findings.layers import MASONRY, Cavity, cavity_of, is_insulation
from server.core.findings.roof_load import POUND_PER_SQUARE_FOOT, mass_of
from server.core.house import Kind

INCH = 0.0254  # m
# of foam right over sheathing on framing, IRC 2021 Tables R703.15.1 and R703.15.2 (memory)
DEEPEST_IN_TABLES = 4.0 * INCH
HEAVIEST_IN_TABLES = 25.0 * POUND_PER_SQUARE_FOOT  # cladding, the same tables (memory)
MEMBRANE = 0.002  # m: thinner layers are membranes, not sheathing
_EVEN = 1e-6


def _judge(case: Case) -> Iterator[Found]:
    for part in case.changed:
        if part.kind not in (Kind.WALL, Kind.ROOF) or not part.faces_outdoors:
            continue
        boards = _new_boards(part)
        if boards and _hangs_on_masonry(part, boards):
            yield Found("on masonry", (part.name,))
        elif boards and part.kind is Kind.WALL and _reaches_past_sheathing(part, boards):
            yield Found("beyond tables, not on sheathing", (part.name,), _depth(part, boards))
        elif boards:
            yield _judged(part, boards)


def _new_boards(part: Part) -> list[SolidLayer]:
    """New insulation outside of what was there, in its order."""
    added = {id(layer) for layer in part.added}
    outer: list[SolidLayer] = []
    for layer in reversed(part.layers):
        if isinstance(layer, SolidLayer) and id(layer) in added and is_insulation(layer.material):
            outer.insert(0, layer)
        elif id(layer) not in added:
            break
    return outer


def _hangs_on_masonry(part: Part, boards: list[SolidLayer]) -> bool:
    """Whether masonry carries the wall, be it lathed inside; a veneer carries nothing."""
    if covered_veneer_at(part.layers) is not None:
        return False
    if cavity_of(part.layers) is None and not _stands_on_wood(part):
        return True
    behind = [each for each in _behind(part, boards[0]) if isinstance(each, SolidLayer)]
    is_sheathed = any(layer.material.group == "sheathing" for layer in behind)
    return any(map(_is_masonry, behind)) and not is_sheathed


def _reaches_past_sheathing(part: Part, boards: list[SolidLayer]) -> bool:
    """Whether masonry or air lies between what carries the wall and the outermost board."""
    behind = _behind(part, boards[-1])
    return any(isinstance(layer, AirLayer) or _is_masonry(layer) for layer in behind)


def _is_masonry(layer: Layer) -> bool:
    if is_veneer(layer):
        return True
    return isinstance(layer, SolidLayer) and layer.material.group in MASONRY


def _stands_on_wood(part: Part) -> bool:
    """Boards or a rim, on rafters or studs that a survey leaves out while they are bare."""
    return any(
        isinstance(layer, SolidLayer) and layer.material.group in ("sheathing", "structure")
        for layer in part.layers
    )


def _judged(part: Part, boards: list[SolidLayer]) -> Found:
    furring = _furring(part, boards[-1])
    insulation = sum(float(layer.thickness) for layer in boards)
    length = screw_length(furring, insulation, _sheathing(part, boards))
    insulation += _old_insulation(part, boards)
    stock = stock_length(float(length))
    facts = _depth(part, boards)
    facts["needed"] = Quantity(round(float(length), 5), "thickness")
    if stock is None:
        return Found("no such screw", (part.name,), facts)
    facts["screw"] = Quantity(stock, "thickness")
    spacing = _spacing(boards)
    if spacing is None:
        return Found("no screws given", (part.name,), facts)
    facts["spacing"] = Quantity(round(spacing, 4), "thickness")
    if part.kind is Kind.ROOF:
        return Found("roof", (part.name,), facts)
    weight = _hung(part, boards[-1])
    if weight is None:
        return Found("weight not known", (part.name,), facts)
    hung = Quantity(round(weight, 2), "mass_per_area")
    facts["weight"] = hung
    if weight > HEAVIEST_IN_TABLES:
        limit = Quantity(HEAVIEST_IN_TABLES, "mass_per_area")
        return Found("too heavy", (part.name,), facts, Measured(hung, limit))
    measured = Measured(
        Quantity(round(insulation, 5), "thickness"), Quantity(DEEPEST_IN_TABLES, "thickness")
    )
    within = insulation <= DEEPEST_IN_TABLES + _EVEN
    outcome = "within tables" if within else "beyond tables"
    if not furring:
        outcome += ", no strips"
    return Found(outcome, (part.name,), facts, measured)


def _depth(part: Part, boards: list[SolidLayer]) -> dict[str, Fact]:
    insulation = sum(float(layer.thickness) for layer in boards) + _old_insulation(part, boards)
    return {"boards": Quantity(round(insulation, 5), "thickness")}


def _furring(part: Part, outermost: SolidLayer) -> float:
    """As thick as the gap it keeps outside of the boards, vented or not; 0 where there is none."""
    place = next(index for index, layer in enumerate(part.layers) if layer is outermost)
    for layer in part.layers[place + 1 :]:
        if isinstance(layer, AirLayer):
            return float(layer.thickness)
        if isinstance(layer, FramedLayer):
            return float(layer.depth)
    return 0.0


def _sheathing(part: Part, boards: list[SolidLayer]) -> float:
    """What the screw goes through between the framing and the boards, old siding that stays too."""
    return sum(
        float(layer.thickness)
        for layer in _behind(part, boards[0])
        if isinstance(layer, AirLayer)
        or (isinstance(layer, SolidLayer) and float(layer.thickness) >= MEMBRANE)
    )


def _old_insulation(part: Part, boards: list[SolidLayer]) -> float:
    """Insulation that stays under the new boards: screws reach through it too."""
    return sum(
        float(layer.thickness)
        for layer in _behind(part, boards[0])
        if isinstance(layer, SolidLayer) and is_insulation(layer.material)
    )


def _behind(part: Part, board: SolidLayer) -> Sequence[Layer]:
    """What lies between the framing and a board."""
    hung = _outside_of_framing(part, board)
    place = next(index for index, layer in enumerate(hung) if layer is board)
    return hung[:place]


def _outside_of_framing(part: Part, board: SolidLayer) -> Sequence[Layer]:
    """The layers that hang on the framing; where none is described it stands behind the sheathing.

    A rim joist is framing itself.
    """
    cavity = cavity_of(part.layers)
    if cavity is not None and _is_outside(cavity, board):
        return cavity.outside
    groups = [each.material.group if isinstance(each, SolidLayer) else "" for each in part.layers]
    if "structure" in groups:
        return part.layers[len(groups) - groups[::-1].index("structure") :]
    if "sheathing" in groups:
        return part.layers[groups.index("sheathing") :]
    return part.layers


def _is_outside(cavity: Cavity, board: SolidLayer) -> bool:
    return any(layer is board for layer in cavity.outside)


def _spacing(boards: list[SolidLayer]) -> float | None:
    """Of screws that stand in a square pattern, m; None where none are given."""
    known = [layer.fasteners for layer in boards if layer.fasteners is not None]
    counts = [float(each.per_area) for each in known if float(each.per_area) > 0.0]
    return 1.0 / math.sqrt(counts[-1]) if counts else None


def _hung(part: Part, outermost: SolidLayer) -> float | None:
    """What hangs outside of the boards, kg/m2; None where that is not known, or not described."""
    place = next(index for index, layer in enumerate(part.layers) if layer is outermost)
    return mass_of(part.layers[place + 1 :]) or None


RULE = Rule(
    "cladding over board",
    {
        "within tables": Severity.WATCH,
        "within tables, no strips": Severity.WATCH,
        "beyond tables": Severity.MEND,
        "beyond tables, no strips": Severity.MEND,
        "beyond tables, not on sheathing": Severity.MEND,
        "too heavy": Severity.MEND,
        "no such screw": Severity.MEND,
        "roof": Severity.WATCH,
        "on masonry": Severity.WATCH,
        "no screws given": Severity.OPEN,
        "weight not known": Severity.OPEN,
    },
    _judge,
)
