"""Screws, nails or ties that pierce a layer of insulation, and what they add to U."""

from __future__ import annotations

from dataclasses import dataclass

from server.core.arrays import Real
from server.core.errors import require_within
from server.core.materials import Material

FULL_DEPTH = 0.8  # of ISO 6946 for a fastener through the whole layer
_INCH = 0.0254  # m
INTO_FRAMING = 1.5 * _INCH  # m, how far a screw goes into the wood behind, common practice
# m, screw lengths as they are sold, common practice.
STOCK_LENGTHS = tuple(
    inches * _INCH
    for inches in (
        2.0,
        2.5,
        3.0,
        3.5,
        4.0,
        4.5,
        5.0,
        6.0,
        7.0,
        8.0,
        9.0,
        10.0,
        11.0,
        12.0,
        13.0,
        14.0,
    )
)
_ROUNDING = 1e-6  # m: sums of sixteenths of an inch are exact on paper, not in floats


@dataclass(frozen=True, slots=True, eq=False)
class Fasteners:
    """Metal through a layer.

    cross_section m2 of one; per_area 1/m2; recess m: how far the heads lie below the layer's face.
    Raises: ImpossibleValue.
    """

    material: Material
    cross_section: Real
    per_area: Real
    recess: Real = 0.0

    def __post_init__(self) -> None:
        require_within("cross_section", self.cross_section, 0.0, 0.01, above=True)
        require_within("per_area", self.per_area, 0.0, 1000.0)
        require_within("recess", self.recess, 0.0)


def fastener_transmittance(
    fasteners: Fasteners, thickness: Real, layer_resistance: Real, total_resistance: Real
) -> Real:
    """What fasteners through one layer add to U.

    dU = alpha k_f A_f n_f / d0 (R1 / R_tot)^2, alpha = 0.8 d1 / d0, where d1 is the length in the
    layer, d0 its thickness, R1 its resistance and R_tot that of the whole without fasteners, by the
    combined method. Additions of under 3 % of U may be left out; they are kept here.
    Shapes: any that broadcast; m, m2 K/W; result W/(m2 K).
    Range: recess at most the thickness; R1 at most R_tot.
    Raises: nothing.
    Source: ISO 6946:2017 Annex F.3 (2007 Annex D.3), memory.
    """
    alpha = FULL_DEPTH * (thickness - fasteners.recess) / thickness
    conductance = fasteners.material.conductivity * fasteners.cross_section * fasteners.per_area
    share = layer_resistance / total_resistance
    return alpha * conductance / thickness * share * share


def screw_length(
    furring: Real, boards: Real, sheathing: Real, into_framing: Real = INTO_FRAMING
) -> Real:
    """How long a screw must be that holds strips over insulation board on a wood frame.

    length = furring + boards + sheathing + into_framing: all that it goes through, and its hold in
    the framing. Furring is as thick as the gap that it keeps; membranes are too thin to count.
    Shapes: any that broadcast; m; result m.
    Range: nothing below 0.
    Raises: ImpossibleValue.
    Source: common practice for strips over continuous insulation, memory: 1 1/2 in into the wood.
    """
    named = {"furring": furring, "boards": boards, "sheathing": sheathing}
    for name, thickness in (named | {"into_framing": into_framing}).items():
        require_within(name, thickness, 0.0)
    return furring + boards + sheathing + into_framing


def stock_length(needed: float) -> float | None:
    """The shortest screw sold that is long enough; None where the longest is too short.

    Shapes: scalar; m; result m.
    Range: any length.
    Raises: nothing.
    Source: the lengths in STOCK_LENGTHS, common practice, memory.
    """
    return next((length for length in STOCK_LENGTHS if length >= needed - _ROUNDING), None)
