"""What stands outside of a part's framing: a veneer, or masonry that carries the house."""

from __future__ import annotations

from typing import Literal

from server.core.assembly import FramedLayer, SolidLayer
from server.core.findings.brick_veneer import is_veneer, veneer_at
from server.core.findings.case import Part
from server.core.findings.layers import MASONRY, Cavity


def is_veneered(part: Part) -> bool:
    """Whether the masonry of a part is a veneer as found, and studs carry the house.

    Shapes: one part. Range: any. Raises: nothing. Source: definition.
    """
    framed = any(isinstance(layer, FramedLayer) for layer in part.layers_before)
    return framed and veneer_at(part.layers_before) is not None


def masonry_outside(part: Part, cavity: Cavity) -> Literal["veneer", "solid"] | None:
    """Which masonry stands outside of the bays after the work; None where none does.

    Shapes: one part and its cavity. Range: any. Raises: nothing. Source: definition.
    """
    stands = any(
        is_veneer(layer) or (isinstance(layer, SolidLayer) and layer.material.group in MASONRY)
        for layer in cavity.outside
    )
    if not stands:
        return None
    return "veneer" if is_veneered(part) else "solid"
