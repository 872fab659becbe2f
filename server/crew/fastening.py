"""How board and strips are screwed to the framing: pattern, and the length that the layers ask."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.core.fasteners import screw_length, stock_length
from server.core.findings.brick_veneer import THICK
from server.files import house_file as hf
from server.files.building import FASTENER_DIAMETER, FASTENER_MATERIAL
from server.files.material_groups import INSULATION, MASONRY, MEMBRANES
from server.pricing.layer_work import LayerWork
from server.recipes import stock
from server.recipes.layers import is_masonry, layer_group

MOST_ON_WALLS = stock.MOST_ON_WALLS_IN * stock.INCH  # m of board: published tables end there
_ROUNDING = 1e-6  # m, or tens of screws
_GAUGES = (6, 8, 9, 10, 12, 14)
_GAUGE_TOLERANCE = 0.006  # in


@dataclass(frozen=True, slots=True)
class Pierced:
    """What a screw goes through, m. known: whether every thickness is."""

    furring: float
    boards: float
    sheathing: float
    known: bool


@dataclass(frozen=True, slots=True)
class Fastening:
    """The screws of one face, lengths in m.

    spacing: both ways, of a square pattern. count: on the area of the part, not rounded. needed:
    None where the layers do not tell, or where they go into masonry. stock: the length to buy,
    None where none is long enough. is_engineered: whether they pass brick or air behind the board,
    so that no table is for them.
    """

    material: str
    diameter: float
    spacing: float
    count: float
    pierced: Pierced
    into_masonry: bool
    is_engineered: bool
    needed: float | None
    stock: float | None


def fastenings(work: LayerWork) -> tuple[Fastening, ...]:
    """The screws through new board, alike ones once: those of two boards are the same screws."""
    made: dict[tuple[str, float, float], Fastening] = {}
    sides = (
        (work.outside, _outer_skin(work), _is_past_sheathing(work)),
        (work.inside[::-1], _inner_skin(work), False),
    )
    for new, skin, is_engineered in sides:
        pierced = _pierced(skin, _up_to_heads(new))
        for layer in new:
            for each in _of_layer(work, layer, pierced, is_engineered=is_engineered):
                made.setdefault((each.material, each.diameter, each.spacing), each)
    return tuple(made.values())


def is_beyond_tables(work: LayerWork) -> bool:
    """Whether a wall gets more board outside than published fastening tables go up to."""
    boards = sum(
        layer.thickness.value
        for layer in work.outside
        if isinstance(layer, hf.SolidEntry) and layer_group(layer) in INSULATION
    )
    return work.component.kind == "wall" and boards > MOST_ON_WALLS + _ROUNDING


def _is_past_sheathing(work: LayerWork) -> bool:
    """Whether brick or air lies between the framing and the outermost new board of a wall.

    Source: IRC 2021 R703.15, foam right over sheathing on framing (memory).
    """
    boards = [i for i, each in enumerate(work.outside) if layer_group(each) in INSULATION]
    if work.component.kind != "wall" or not boards:
        return False
    is_framed = any(map(_holds_screws, work.kept))
    skin = _outer_skin(work)
    groups = [layer_group(layer) for layer in skin]
    is_sheathed = "sheathing" in groups
    if is_sheathed and not is_framed:
        skin = skin[groups.index("sheathing") :]
    if any(map(_is_brick, skin)):
        return is_sheathed  # else the brick carries the wall and takes anchors
    behind = (*skin, *work.outside[: boards[-1]])
    air = any(isinstance(layer, hf.AirLayerEntry) for layer in behind)
    return air and (is_sheathed or is_framed)


def _is_brick(layer: hf.LayerEntry) -> bool:
    """Masonry of any sort, but no coat of stucco."""
    if not isinstance(layer, hf.SolidEntry) or not is_masonry(layer):
        return False
    return layer_group(layer) in MASONRY or layer.thickness.value >= THICK


def _of_layer(
    work: LayerWork, layer: hf.LayerEntry, pierced: Pierced, *, is_engineered: bool
) -> Iterator[Fastening]:
    if not isinstance(layer, hf.SolidEntry) or layer.fasteners is None:
        return
    fasteners = layer.fasteners
    if fasteners.per_area.value <= 0.0:
        return
    into_masonry = any(is_masonry(each) for each in work.kept)
    needed = None
    if pierced.known and not into_masonry:
        needed = float(screw_length(pierced.furring, pierced.boards, pierced.sheathing))
    yield Fastening(
        material=fasteners.material or FASTENER_MATERIAL,
        diameter=_diameter(fasteners),
        spacing=1.0 / math.sqrt(fasteners.per_area.value),
        count=fasteners.per_area.value * work.component.area.value,
        pierced=pierced,
        into_masonry=into_masonry,
        is_engineered=is_engineered,
        needed=needed,
        stock=None if needed is None else stock_length(needed),
    )


def _diameter(fasteners: hf.FastenersEntry) -> float:
    if fasteners.diameter is not None:
        return fasteners.diameter.value
    if fasteners.cross_section is not None:
        return math.sqrt(4.0 * fasteners.cross_section.value / math.pi)
    return FASTENER_DIAMETER


def _holds_screws(layer: hf.LayerEntry) -> bool:
    """Framing, or solid wood of its sort, such as a rim joist."""
    return isinstance(layer, hf.FramedEntry) or layer_group(layer) == "structure"


def _outer_skin(work: LayerWork) -> Sequence[hf.LayerEntry]:
    """What stays outside the framing, outward; all that stays where no framing is described."""
    framed = [i for i, layer in enumerate(work.kept) if _holds_screws(layer)]
    return work.kept[framed[-1] + 1 :] if framed else work.kept


def _inner_skin(work: LayerWork) -> Sequence[hf.LayerEntry]:
    """What stays inside the framing, from the framing inward."""
    framed = [i for i, layer in enumerate(work.kept) if _holds_screws(layer)]
    return (work.kept[: framed[0]] if framed else work.kept)[::-1]


def _up_to_heads(new: Sequence[hf.LayerEntry]) -> Sequence[hf.LayerEntry]:
    """New layers from the framing to the heads: the last board held, and strips right over it."""
    held = [i for i, each in enumerate(new) if isinstance(each, hf.SolidEntry) and each.fasteners]
    end = held[-1] + 1 if held else 0
    over = end
    while over < len(new) and layer_group(new[over]) in MEMBRANES:
        over += 1
    if over < len(new) and isinstance(new[over], hf.AirLayerEntry):
        return new[: over + 1]
    return new[:end]


def _pierced(skin: Sequence[hf.LayerEntry], new: Sequence[hf.LayerEntry]) -> Pierced:
    """What lies between the framing and the heads; a gap at the end is as deep as strips are thick.

    Membranes are too thin to count; new framing is what the screws then go into.
    """
    furring = boards = sheathing = 0.0
    known = True
    layers = (*skin, *new)
    for index, layer in enumerate(layers):
        group = layer_group(layer)
        if isinstance(layer, hf.FramedEntry):
            boards = sheathing = 0.0
            known = True
        elif isinstance(layer, hf.ResistanceEntry):
            known = False
        elif isinstance(layer, hf.AirLayerEntry):
            if index >= len(skin) and index == len(layers) - 1:
                furring = layer.thickness.value
            else:
                sheathing += layer.thickness.value
        elif group in INSULATION:
            boards += layer.thickness.value
        elif group not in MEMBRANES:
            sheathing += layer.thickness.value
    return Pierced(furring, boards, sheathing, known)


def screw_gauge(diameter: float) -> int | None:
    """The number by which a screw so thick (m) is sold; None where none is that thick.

    Source: the trade's series, 0.060 in and 0.013 in for every number, from memory.
    """
    inches = diameter / stock.INCH
    nearest = min(_GAUGES, key=lambda number: abs(_gauge_inches(number) - inches))
    return nearest if abs(_gauge_inches(nearest) - inches) <= _GAUGE_TOLERANCE else None


def _gauge_inches(number: int) -> float:
    return 0.060 + 0.013 * number


def to_buy(count: float) -> int:
    """Screws as they are counted out: up to the next ten."""
    return 10 * math.ceil(count / 10.0 - _ROUNDING)
