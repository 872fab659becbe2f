"""An insulated roof without a vented gap under its deck: what the residential code asks there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.core.assembly import AirLayer, FramedLayer, Layer, SolidLayer
from server.core.films import HOUR_FT2_DEGF_PER_BTU as LABEL
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part, Zone
from server.core.findings.layers import (
    ONE_PERM,
    deck_of,
    diffusion_thickness,
    fill_thickness,
    insulates,
    is_foam,
    is_insulation,
    is_open_gap,
    resistance_of,
    up_to_ventilation,
)
from server.core.findings.retarder_by_zone import CLASS_I, CLASS_II, MARINE_4, row_of
from server.core.findings.sheathing_in_winter import STEP
from server.core.house import Kind
from server.core.materials import Material

LEAST_VENT = 0.0254  # m: 1 in clear under the deck, IRC R806.3
FOAM_CONDUCTIVITY = 0.024  # W/(m K): closed-cell sprayed foam, aged, about R-6 an inch
OPEN_CELL_ABOVE = 0.032  # W/(m K): half-pound foam conducts more than two-pound foam
FIRST_ZONE_FOR_CLOSED = 5.0  # from here open-cell foam needs a class II retarder, R806.5 (memory)
# IRC 2021 Table R806.5, least R of air-impermeable insulation, h ft2 degF/Btu, memory; R-5 in zone
# 1 as published by a national building-science programme.
AIR_IMPERMEABLE = {
    1.0: 5.0,
    2.0: 5.0,
    3.0: 5.0,
    4.0: 15.0,
    MARINE_4: 10.0,
    5.0: 20.0,
    6.0: 25.0,
    7.0: 30.0,
    8.0: 35.0,
}
NONE_UNDER_TILES = frozenset({(2, "B"), (3, "B")})  # the same table (memory)
NO_FIGURE = frozenset({"all above the deck", "foam alone"})


@dataclass(frozen=True, slots=True)
class _Roof:
    """What insulates a roof, m2 K/W, by where it lies.

    foam_at: against the underside of the deck. foam_above, board_above: outside of it; board lets
    air through. below: what lets air through, inside of the deck. conductivity: of the outermost
    of foam and board. open_foam: foam against the deck that lets vapour through to it, nothing
    tighter lying inside of it. tight_ceiling: a class I retarder on the room side.
    """

    foam_at: float
    foam_above: float
    board_above: float
    below: float
    conductivity: float
    open_foam: Material | None
    tight_ceiling: bool

    @property
    def foam(self) -> float:
        """All foam at the deck or above it."""
        return self.foam_at + self.foam_above


def _judge(case: Case) -> Iterator[Found]:
    for part in case.shell:
        if part.kind is not Kind.ROOF or not part.faces_outdoors:
            continue
        if not any(map(insulates, part.layers)):
            continue
        deck = deck_of(part.layers)
        vent = _vent_under(part.layers, deck)
        if vent is not None:
            enough = float(vent.thickness) >= LEAST_VENT - 1e-6
            yield Found("vented" if enough else "vented, too narrow", (part.name,))
        elif case.zone is None:
            yield Found("zone not known", (part.name,))
        else:
            roof = _roof(part.layers, deck, case.paint(part))
            yield _judged(part, roof, case.zone)


def _vent_under(layers: Sequence[Layer], deck: int) -> AirLayer | None:
    """The gap that outdoor air blows through between the insulation and the deck."""
    for layer in layers[:deck]:
        if isinstance(layer, AirLayer) and is_open_gap(layer):
            return layer
    return None


def _roof(layers: Sequence[Layer], deck: int, paint: float) -> _Roof:
    passed = up_to_ventilation(layers)
    foam_at = foam_above = board = below = 0.0
    conductivity, open_foam = FOAM_CONDUCTIVITY, None
    for index, layer in enumerate(passed):
        found = _insulation_of(layer)
        if found is None:
            continue
        material, resistance = found
        if index <= deck and not (is_foam(material) and _touches(passed, index, deck)):
            below += resistance
            continue
        conductivity = float(material.conductivity)
        if not is_foam(material):
            board += resistance
        elif index > deck:
            foam_above += resistance
        else:
            foam_at += resistance
            lets_through = (diffusion_thickness(layer) or 0.0) < ONE_PERM
            open_foam = material if lets_through else None
    linings = [each for each in passed[:deck] if not insulates(each)]
    tightest = max((diffusion_thickness(each) or 0.0 for each in linings), default=0.0)
    if max(tightest, paint) >= CLASS_II:
        open_foam = None
    return _Roof(foam_at, foam_above, board, below, conductivity, open_foam, tightest >= CLASS_I)


def _insulation_of(layer: Layer) -> tuple[Material, float] | None:
    """The material of a layer that insulates, and its resistance along the fill."""
    if isinstance(layer, FramedLayer):
        if layer.fill is None or not is_insulation(layer.fill):
            return None
        return layer.fill, fill_thickness(layer) / float(layer.fill.conductivity)
    if isinstance(layer, SolidLayer) and is_insulation(layer.material):
        return layer.material, resistance_of(layer)
    return None


def _touches(layers: Sequence[Layer], index: int, deck: int) -> bool:
    """Whether nothing but membranes and other foam lies between a layer and the deck."""
    between = layers[index + 1 : deck]
    return all(
        isinstance(each, SolidLayer)
        and (each.material.group in ("membrane", "air-tight") or is_foam(each.material))
        for each in between
    )


def _judged(part: Part, roof: _Roof, zone: Zone) -> Found:
    needed = _needed(part, zone) * LABEL
    has = roof.foam + roof.board_above
    limit = Quantity(round(needed, 4), "resistance")
    measured = Measured(Quantity(round(has, 3), "resistance"), limit, True)
    facts: dict[str, Fact] = {
        "zone": f"{zone.number}{zone.letter}",
        "has": measured.figure,
        "needed": limit,
        "board": Quantity(_thickness(needed, roof.conductivity), "thickness"),
    }
    outcome = _outcome(roof, has >= needed - 1e-6, row_of(zone))
    if outcome == "thin foam, no retarder":
        assert roof.open_foam is not None
        facts["board"] = Quantity(_one_perm_of(roof.open_foam), "thickness")
        return Found(outcome, (part.name,), facts)
    if outcome == "no air-impermeable insulation":
        facts["board"] = Quantity(_thickness(needed, FOAM_CONDUCTIVITY), "thickness")
        if not part.is_changed:
            outcome = "found without air-impermeable insulation"
        del facts["has"]
        return Found(outcome, (part.name,), facts)
    return Found(outcome, (part.name,), facts, None if outcome in NO_FIGURE else measured)


def _needed(part: Part, zone: Zone) -> float:
    """Least R of air-impermeable insulation, h ft2 degF/Btu."""
    if (zone.number, zone.letter) in NONE_UNDER_TILES and _is_tiled(part):
        return 0.0
    return AIR_IMPERMEABLE[row_of(zone)]


def _is_tiled(part: Part) -> bool:
    return any(
        isinstance(layer, SolidLayer)
        and layer.material.group == "roofing"
        and "tile" in layer.material.name.lower()
        for layer in part.layers
    )


def _outcome(roof: _Roof, enough: bool, row: float) -> str:
    if roof.below == 0.0:
        return _of_roof_without_fill(roof, row)
    if roof.tight_ceiling:
        return "tight ceiling"
    if roof.board_above:
        return "open board, as much" if enough else "open board, less"
    if roof.foam:
        return _of_foam(roof, enough, row)
    return "no air-impermeable insulation"


def _of_roof_without_fill(roof: _Roof, row: float) -> str:
    """The table is for foam beside what lets air through; foam alone has to touch the deck."""
    if roof.foam_at == 0.0:
        return "all above the deck"
    return _without_retarder(roof, row) or "foam alone"


def _of_foam(roof: _Roof, enough: bool, row: float) -> str:
    if not enough:
        return "foam, too thin"
    return _without_retarder(roof, row) or "foam, enough"


def _without_retarder(roof: _Roof, row: float) -> str | None:
    """Where foam at the deck needs a retarder of class II, and is none itself."""
    if roof.open_foam is None or row < FIRST_ZONE_FOR_CLOSED:
        return None
    is_open_cell = float(roof.open_foam.conductivity) > OPEN_CELL_ABOVE
    return f"{'open-cell' if is_open_cell else 'thin'} foam, no retarder"


def _one_perm_of(foam: Material) -> float:
    """The thickness of a foam that passes one perm, m, in steps of 1/2 in."""
    thickness = ONE_PERM / float(foam.vapour_resistance_factor or 1.0)
    return math.ceil(thickness / STEP - 1e-9) * STEP


def _thickness(needed: float, conductivity: float) -> float:
    return math.ceil(needed * conductivity / STEP - 1e-9) * STEP


RULE = Rule(
    "unvented roof",
    {
        "vented": Severity.GOOD,
        "vented, too narrow": Severity.WATCH,
        "all above the deck": Severity.GOOD,
        "foam alone": Severity.GOOD,
        "foam, enough": Severity.GOOD,
        "foam, too thin": Severity.MEND,
        "open-cell foam, no retarder": Severity.MEND,
        "thin foam, no retarder": Severity.MEND,
        "open board, as much": Severity.WATCH,
        "open board, less": Severity.MEND,
        "tight ceiling": Severity.MEND,
        "no air-impermeable insulation": Severity.MEND,
        "found without air-impermeable insulation": Severity.WATCH,
        "zone not known": Severity.OPEN,
    },
    _judge,
)
