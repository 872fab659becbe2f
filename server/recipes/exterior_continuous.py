"""The recipe that wraps the whole house and brings attics and dry basements inside."""

from __future__ import annotations

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.recipes import stock
from server.recipes.bays import fill
from server.recipes.ground import basements_to_line, edges, lining, lining_of_ground_wall
from server.recipes.plan import Plan
from server.recipes.survey import Json, Survey
from server.recipes.wrap import roof_wrap, wall_wrap

TIGHTNESS = 0.35  # an unbroken membrane outside the sheathing, common practice


def plan(survey: Survey) -> Plan:
    """Walls and roofs to outdoors wrapped, basement walls lined, the bays left as found."""
    basements = basements_to_line(survey)
    attics = attics_to_wrap(survey)
    inside = survey.inside.union(attics, basements)
    changes = {
        part.name: _change(survey, part, part.from_ in basements)
        for part in survey.bounding(inside)
    }
    return Plan(
        tightness=TIGHTNESS,
        brought_in=(*attics, *basements),
        changes={name: change for name, change in changes.items() if change is not None},
        edges=edges(survey, inside),
    )


def attics_to_wrap(survey: Survey) -> tuple[str, ...]:
    """The attics that can come inside: every roof over them takes board."""
    return tuple(
        space
        for space in survey.attics
        if all(
            roof_wrap(survey.layers(roof), roof_board_in(survey)) for roof in survey.roofs_of(space)
        )
    )


def roof_board_in(survey: Survey) -> float:
    """Board on a roof whose bays stay as they are, in."""
    return stock.board_in(survey.wanted.ceiling, stock.MOST_ON_ROOFS_IN)


def _wall_board_in(survey: Survey) -> float:
    return stock.board_in(survey.wanted.wall, stock.MOST_ON_WALLS_IN)


def _walls_stay(survey: Survey) -> bool:
    """Whether none of the walls of the rooms takes board outside."""
    walls = [
        part
        for part in survey.bounding(survey.inside)
        if part.kind == "wall" and part.to == OUTDOORS
    ]
    board_in = _wall_board_in(survey)
    return bool(walls) and not any(wall_wrap(survey.layers(wall), board_in) for wall in walls)


def _change(survey: Survey, part: hf.ComponentEntry, in_basement: bool) -> Json | None:
    layers = survey.layers(part)
    if part.kind == "basement wall":
        return lining_of_ground_wall(survey, part)
    if part.kind == "roof" and part.to == OUTDOORS:
        return roof_wrap(layers, roof_board_in(survey))
    if part.kind == "wall" and part.to == OUTDOORS:
        wrap = wall_wrap(layers, _wall_board_in(survey))
        if not in_basement:
            return wrap
        # board on a rim alone would stand out below walls that stay as found
        lined = lining(survey, part) if wrap is None or _walls_stay(survey) else None
        return lined or wrap
    return fill(survey, part)  # towards a buffer that stays outside there is no outside to wrap
