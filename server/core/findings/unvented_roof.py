"""An insulated roof without a vented gap under its deck: what the residential code asks there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from server.core.assembly import AirLayer, FramedLayer, Layer, SolidLayer, Ventilation
from server.core.films import HOUR_FT2_DEGF_PER_BTU as LABEL
from server.core.findings.base import Fact, Found, Measured, Quantity, Rule, Severity
from server.core.findings.case import Case, Part, Zone
from server.core.findings.layers import (
    fill_thickness,
    insulates,
    is_foam,
    is_insulation,
    resistance_of,
    up_to_ventilation,
)
from server.core.findings.retarder_by_zone import row_of
from server.core.findings.sheathing_in_winter import STEP
from server.core.house import Kind

FOAM_CONDUCTIVITY = 0.024  # W/(m K): closed-cell sprayed foam, aged, about R-6 an inch
# IRC 2021 Table R806.5, least R of air-impermeable insulation, h ft2 degF/Btu, memory; R-5 in zone
# 1 as published by a national building-science programme. 4.5 is marine 4.
AIR_IMPERMEABLE = {
    1.0: 5.0,
    2.0: 5.0,
    3.0: 5.0,
    4.0: 15.0,
    4.5: 10.0,
    5.0: 20.0,
    6.0: 25.0,
    7.0: 30.0,
    8.0: 35.0,
}


@dataclass(frozen=True, slots=True)
class _Roof:
    """What insulates a roof, m2 K/W: foam, and open board above the deck."""

    foam: float
    board_above: float
    conductivity: float


def _judge(case: Case) -> Iterator[Found]:
    for part in case.shell:
        if part.kind is not Kind.ROOF or not part.faces_outdoors:
            continue
        passed = up_to_ventilation(part.layers)
        if not any(map(insulates, part.layers)):
            continue
        if _is_vented_below_deck(part.layers):
            yield Found("vented", (part.name,))
        elif case.zone is None:
            yield Found("zone not known", (part.name,))
        else:
            yield _judged(part, _roof(passed), case.zone)


def _is_vented_below_deck(layers: Sequence[Layer]) -> bool:
    """Whether air from outdoors blows between the insulation and the first deck over it."""
    for index, layer in enumerate(layers):
        if isinstance(layer, AirLayer) and layer.ventilation is not Ventilation.UNVENTILATED:
            return not any(map(_is_deck, layers[:index]))
    return False


def _is_deck(layer: Layer) -> bool:
    return isinstance(layer, SolidLayer) and layer.material.group == "sheathing"


def _roof(layers: Sequence[Layer]) -> _Roof:
    decks = [index for index, layer in enumerate(layers) if _is_deck(layer)]
    deck = decks[0] if decks else len(layers)
    foam = board = 0.0
    conductivity = FOAM_CONDUCTIVITY
    for index, layer in enumerate(layers):
        if isinstance(layer, FramedLayer) and layer.fill is not None and is_foam(layer.fill):
            foam += fill_thickness(layer) / float(layer.fill.conductivity)
        elif isinstance(layer, SolidLayer) and is_foam(layer.material):
            foam += resistance_of(layer)
            conductivity = float(layer.material.conductivity)
        elif isinstance(layer, SolidLayer) and is_insulation(layer.material) and index > deck:
            board += resistance_of(layer)
            conductivity = float(layer.material.conductivity)
    return _Roof(foam, board, conductivity)


def _judged(part: Part, roof: _Roof, zone: Zone) -> Found:
    needed = AIR_IMPERMEABLE[row_of(zone)] * LABEL
    has = roof.foam or roof.board_above
    measured = Measured(
        Quantity(round(has, 3), "resistance"), Quantity(round(needed, 4), "resistance"), True
    )
    facts: dict[str, Fact] = {
        "zone": f"{zone.number}{zone.letter}",
        "has": measured.figure,
        "needed": Quantity(round(needed, 4), "resistance"),
        "board": Quantity(_board(needed, roof.conductivity), "thickness"),
    }
    enough = has >= needed - 1e-6
    if roof.foam:
        return Found("foam, enough" if enough else "foam, too thin", (part.name,), facts, measured)
    if roof.board_above:
        outcome = "open board, as much" if enough else "open board, less"
        return Found(outcome, (part.name,), facts, measured)
    facts["board"] = Quantity(_board(needed, FOAM_CONDUCTIVITY), "thickness")
    return Found("no air-impermeable insulation", (part.name,), facts, measured)


def _board(needed: float, conductivity: float) -> float:
    return math.ceil(needed * conductivity / STEP - 1e-9) * STEP


RULE = Rule(
    "unvented roof",
    {
        "vented": Severity.GOOD,
        "foam, enough": Severity.GOOD,
        "foam, too thin": Severity.MEND,
        "open board, as much": Severity.WATCH,
        "open board, less": Severity.MEND,
        "no air-impermeable insulation": Severity.MEND,
        "zone not known": Severity.OPEN,
    },
    _judge,
)
