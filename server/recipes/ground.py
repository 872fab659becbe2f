"""Where the house meets the ground: basement walls and slab edges."""

from __future__ import annotations

from server.core.findings.ground_floors import CRAWLSPACE
from server.files import house_file as hf
from server.formatting import inches_text
from server.recipes import stock
from server.recipes.layers import is_framed, is_insulated
from server.recipes.survey import Json, Survey
from server.recipes.wrap import BOARD

FOAM = "expanded polystyrene"
EDGE_DEPTH = "2 ft"
THICKEST_LINING_IN = 6.0
_LINING: Json = {"material": "gypsum board", "thickness": "1/2 in", "name": "inside lining"}
# What covers foam in a crawlspace against fire and takes no harm from damp: 1 1/2 in of mineral
# fibre, IRC R316.5.4 (memory).
_WOOL_COVER_IN = 1.5
_WOOL_COVER: Json = {
    "material": BOARD,
    "thickness": inches_text(_WOOL_COVER_IN),
    "name": "cover of the foam, fixed to the wall",
    "label_resistance": stock.label(stock.BOARD_R * _WOOL_COVER_IN),
}
_LEAST_FOAM_IN = 1.0


def lining(survey: Survey, component: hf.ComponentEntry) -> Json | None:
    """Foam board in two layers and its cover, on a bare wall or rim of a basement or a crawlspace.

    The cover is gypsum board; in a crawlspace mineral wool board, which counts for the code too.
    """
    layers = survey.layers(component)
    if not layers or is_framed(layers) or is_insulated(layers):
        return None
    board_in = stock.board_in(survey.wanted.basement_wall, THICKEST_LINING_IN)
    if not board_in:
        return None
    if CRAWLSPACE.search(component.from_):
        foam_in = max(board_in - _WOOL_COVER_IN, _LEAST_FOAM_IN)
        return {"inside": [_WOOL_COVER, *_foams(foam_in)]}
    return {"inside": [_LINING, *_foams(board_in)]}


def _foams(foam_in: float) -> list[Json]:
    outer_in, inner_in = stock.halves_in(foam_in)
    return [
        _foam("inner foam board", inner_in),
        _foam("outer foam board, joints offset", outer_in),
    ]


def _foam(name: str, foam_in: float) -> Json:
    return {
        "material": FOAM,
        "thickness": inches_text(foam_in),
        "name": name,
        "label_resistance": stock.label(stock.BOARD_R * foam_in),
    }


def lining_of_ground_wall(survey: Survey, component: hf.ComponentEntry) -> Json | None:
    """The lining of a basement wall of a space that is or comes inside; a wet one gets none."""
    return None if survey.is_wet(component.from_) else lining(survey, component)


def basements_to_line(survey: Survey) -> tuple[str, ...]:
    """The basements that can come inside: dry, and every wall in the ground lined or insulated."""
    return tuple(space for space in survey.basements if _can_be_lined(survey, space))


def _can_be_lined(survey: Survey, space: str) -> bool:
    if not survey.wanted.basement_wall or survey.is_wet(space):
        return False
    walls = [part for part in survey.parts_of(space) if part.kind == "basement wall"]
    return all(
        lining(survey, wall) is not None or is_insulated(survey.layers(wall)) for wall in walls
    )


def edges(survey: Survey, inside: frozenset[str]) -> dict[str, Json]:
    """Insulation down the edges of the slabs inside that have none."""
    board_in = stock.board_in(survey.wanted.slab_edge, stock.MOST_ON_WALLS_IN)
    if not board_in:
        return {}
    edge = {
        "resistance": stock.label(stock.BOARD_R * board_in),
        "depth": EDGE_DEPTH,
        "thickness": inches_text(board_in),
    }
    return {
        slab.name: dict(edge)
        for slab in survey.bounding(inside)
        if slab.kind == "slab"
        and survey.layers(slab)
        and slab.exposed_perimeter is not None
        and slab.edge_insulation is None
    }
