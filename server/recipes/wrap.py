"""Board around the outside: what comes off a wall or roof, and what goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from server.files import house_file as hf
from server.files.material_groups import MEMBRANES
from server.recipes import stock
from server.recipes.layers import (
    is_masonry,
    is_ventilated,
    layer_group,
    left_after,
    removal,
)
from server.recipes.survey import Json, assumed

BOARD = "rigid mineral wool board"
NEW_WHERE_OLD_IS_UNFIT = "fibre-cement siding"
NEW_ROOFING = "asphalt shingle"
UNFIT_AGAIN = ("asbestos", "asphalt-faced")

_AIR_BARRIER: Json = {
    "material": "self-adhered membrane, vapour-open",
    "thickness": "0.6 mm",
    "name": "air barrier",
}
_WALL_GAP: Json = {
    "air_layer": "well ventilated",
    "thickness": "3/4 in",
    "name": "ventilated gap",
}
_ROOF_GAP: Json = _WALL_GAP | {"thickness": "1 1/2 in"}
# One screw through strips and board in every 16 in both ways, common practice for a wood frame.
SCREWS: Json = {
    "per_area": assumed("0.5625 per ft^2"),
    "material": "steel",
    "diameter": assumed("0.19 in"),
}
_SHEATHING: Json = {"material": "plywood", "thickness": "5/8 in", "name": "new sheathing"}
_FELT: Json = {"material": "asphalt felt", "thickness": "0.04 in", "name": "new felt"}


@dataclass(frozen=True, slots=True)
class _Stripped:
    """A part without its weather skin. skin: the outermost layer of it."""

    remove: list[str]
    skin: hf.LayerEntry


def wall_wrap(layers: Sequence[hf.LayerEntry], board_in: float) -> Json | None:
    """New siding over board of a thickness; None where the wall is to stay as found."""
    if not board_in or any(is_masonry(layer) for layer in layers):
        return None
    stripped = _without_siding(layers)
    if stripped is None:
        return None
    outside = [_AIR_BARRIER, *_boards(board_in, ""), _WALL_GAP, _new_siding(stripped.skin)]
    return {"remove": stripped.remove, "outside": outside}


def roof_wrap(layers: Sequence[hf.LayerEntry], board_in: float) -> Json | None:
    """New roofing over board of a thickness; None where the roof is to stay as found."""
    stripped = _without_roofing(layers) if board_in else None
    if stripped is None:
        return None
    boards = _boards(board_in, "roof ")
    roofing = _new_roofing(stripped.skin)
    outside = [_AIR_BARRIER, *boards, _ROOF_GAP, _SHEATHING, _FELT, roofing]
    return {"remove": stripped.remove, "outside": outside}


def _is_air(layer: hf.LayerEntry) -> bool:
    return isinstance(layer, hf.AirLayerEntry)


def _outer_run(layers: Sequence[hf.LayerEntry], groups: frozenset[str]) -> list[int]:
    """Indices of the layers from outside in, as far as they are of these groups, or air."""
    run: list[int] = []
    for index in range(len(layers) - 1, -1, -1):
        if not _is_air(layers[index]) and layer_group(layers[index]) not in groups:
            break
        run.append(index)
    return run


def _without_siding(layers: Sequence[hf.LayerEntry]) -> _Stripped | None:
    """All sidings and the air behind them; paper on the sheathing may stay."""
    run = _outer_run(layers, MEMBRANES | {"cladding"})
    sidings = [index for index in run if layer_group(layers[index]) == "cladding"]
    if not sidings:
        return None
    start = min(sidings)
    while start - 1 in run and _is_air(layers[start - 1]):
        start -= 1
    off = [index for index in run if index >= start]
    return _stripped(layers, off, [], max(sidings))


def _without_roofing(layers: Sequence[hf.LayerEntry]) -> _Stripped | None:
    """Everything down to the deck; felt whose name is another layer's too may stay."""
    run = _outer_run(layers, MEMBRANES | {"cladding", "roofing"})
    roofings = [i for i in run if layer_group(layers[i]) in ("cladding", "roofing")]
    if not roofings:
        return None
    needed = [i for i in run if i in roofings or is_ventilated(layers[i])]
    return _stripped(layers, needed, [i for i in run if i not in needed], max(roofings))


def _stripped(
    layers: Sequence[hf.LayerEntry], needed: list[int], welcome: list[int], skin: int
) -> _Stripped | None:
    """None where it cannot come off, where nothing is left, or where air blows behind what is."""
    names = removal(layers, needed, welcome)
    if names is None:
        return None
    left = left_after(layers, names)
    if not left or any(is_ventilated(layer) for layer in left):
        return None
    return _Stripped(names, layers[skin])


def _boards(board_in: float, sort: str) -> list[Json]:
    if board_in <= stock.SINGLE_BOARD_IN:
        return [_board(f"{sort}board", board_in)]
    inner_in, outer_in = stock.halves_in(board_in)
    return [
        _board(f"inner {sort}board", inner_in),
        _board(f"outer {sort}board, joints offset", outer_in),
    ]


def _board(name: str, board_in: float) -> Json:
    return {
        "material": BOARD,
        "thickness": stock.inches(board_in),
        "name": name,
        "label_resistance": stock.label(stock.BOARD_R * board_in),
        "fasteners": SCREWS,
    }


def _new_siding(old: hf.LayerEntry) -> Json:
    """The old material again, at its old thickness, where it is fit for new work."""
    if isinstance(old, hf.SolidEntry) and not _is_unfit(old.material):
        return _again(old, "new siding")
    thickness = assumed("5/16 in")
    return {"material": NEW_WHERE_OLD_IS_UNFIT, "thickness": thickness, "name": "new siding"}


def _is_unfit(material: str) -> bool:
    return any(word in material.lower() for word in UNFIT_AGAIN)


def _new_roofing(old: hf.LayerEntry) -> Json:
    if isinstance(old, hf.SolidEntry) and not _is_unfit(old.material):
        return _again(old, "new roofing")
    return {"material": NEW_ROOFING, "thickness": assumed("1/2 in"), "name": "new roofing"}


def _again(old: hf.SolidEntry, name: str) -> Json:
    return {"material": old.material, "thickness": assumed(str(old.thickness.typed)), "name": name}
