"""The recipe that fills the bays and wraps the outside with thinner board; basements stay out."""

from __future__ import annotations

from server.core.house import OUTDOORS
from server.files import house_file as hf
from server.recipes import stock
from server.recipes.bays import batts_behind, fill, has_filled_bays
from server.recipes.exterior_continuous import attics_to_wrap, roof_board_in
from server.recipes.ground import edges, lining_of_ground_wall
from server.recipes.plan import Plan
from server.recipes.survey import Json, Survey
from server.recipes.wrap import roof_wrap, wall_wrap

TIGHTNESS = 0.45  # membrane on walls and roof, the basement ceiling sealed by hand, common practice


def plan(survey: Survey) -> Plan:
    """Bays filled everywhere, walls and roofs to outdoors wrapped, attics brought inside."""
    attics = attics_to_wrap(survey)
    inside = survey.inside.union(attics)
    changes = {
        part.name: _change(survey, part, part.from_ in attics) for part in survey.bounding(inside)
    }
    return Plan(
        tightness=TIGHTNESS,
        brought_in=attics,
        changes={name: change for name, change in changes.items() if change is not None},
        edges=edges(survey, inside),
    )


def _change(survey: Survey, part: hf.ComponentEntry, in_attic: bool) -> Json | None:
    if part.kind == "basement wall":
        return lining_of_ground_wall(survey, part)
    filled = fill(survey, part)
    if part.kind not in ("wall", "roof") or part.to != OUTDOORS:
        return filled
    behind = batts_behind(survey, part) if filled is None and in_attic else None
    wrap = _wrap(survey, part, filled or behind)
    if wrap is None:
        return filled
    return wrap | (filled or behind or {})


def _wrap(survey: Survey, part: hf.ComponentEntry, bays: Json | None) -> Json | None:
    layers = survey.layers(part)
    if part.kind == "wall":
        board_in = stock.board_in(survey.wanted.wall_with_fill, stock.MOST_ON_WALLS_IN)
        return wall_wrap(layers, board_in)
    board_in = roof_board_in(survey)
    if has_filled_bays(layers, bays):
        # the bays hold the other half, but the deck has to stay warm
        least_in = stock.board_in(survey.wanted.deck, stock.MOST_ON_ROOFS_IN)
        board_in = max(stock.halves_in(board_in)[0], least_in)
    return roof_wrap(layers, board_in)
