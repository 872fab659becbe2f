"""A material: what one layer is made of."""

from __future__ import annotations

from dataclasses import dataclass

from server.core.arrays import Real
from server.core.errors import require_within

METAL_CONDUCTIVITY = 10.0  # W/(m K): everything a house is framed with is far below or far above


@dataclass(frozen=True, slots=True, eq=False)
class Material:
    """A homogeneous material with its design values.

    conductivity W/(m K), 0.0001 to 1000; density kg/m3, specific heat J/(kg K): above zero; vapour
    resistance factor (ISO 10456 mu): at least 1. compressive_strength Pa: of board at 10 %
    deformation, above zero. reaction_to_fire: class of EN 13501-1. group: what sort of thing it is,
    as the material table groups it. Only the conductivity must be known.
    Raises: ImpossibleValue.
    """

    name: str
    conductivity: Real
    density: Real | None = None
    specific_heat: Real | None = None
    vapour_resistance_factor: Real | None = None
    compressive_strength: Real | None = None
    reaction_to_fire: str | None = None
    group: str | None = None

    def __post_init__(self) -> None:
        require_within("conductivity", self.conductivity, 1e-4, 1000.0)
        for field in ("density", "specific_heat"):
            value = getattr(self, field)
            if value is not None:
                require_within(field, value, 0.0, 1e5, above=True)
        if self.vapour_resistance_factor is not None:
            require_within("vapour_resistance_factor", self.vapour_resistance_factor, 1.0, 1e9)
        if self.compressive_strength is not None:
            require_within("compressive_strength", self.compressive_strength, 0.0, 1e9, above=True)
