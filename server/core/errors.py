"""What the core refuses: a tree of errors that carry facts. No sentence and no HTTP status here.

`field` names the offending field of what is being made, so that a file or a form can point at it.
"""

from __future__ import annotations

import re

from server.core.arrays import Real, all_within

Fact = str | float | None


class CoreError(Exception):
    """A house, or a change to one, that cannot be. `code` is stable; `facts` fill its sentence."""

    code = "core_error"

    def __init_subclass__(cls) -> None:
        cls.code = re.sub(r"(?<!^)(?=[A-Z])", "_", cls.__name__).lower()

    def __init__(self, field: str | None = None, **facts: Fact) -> None:
        self.field = field
        self.facts = facts
        super().__init__(f"{self.code} at {field}: {facts}")

    def within(self, place: str) -> CoreError:
        """The same error, its field seen from further out."""
        self.field = place if self.field is None else f"{place}.{self.field}"
        return self


class ImpossibleValue(CoreError):
    """A value outside its range.

    Facts: low, high (None where open), above (low itself excluded), too_low.
    """


class LayerError(CoreError):
    """Layers that cannot be built or cannot be computed by the layer methods."""


class NoLayers(LayerError):
    """An assembly without a layer."""


class MetalFraming(LayerError):
    """Metal framing, outside the range of the combined method. Facts: material."""


class FillDeeperThanBay(LayerError):
    """More fill than a closed bay holds. Facts: fill_thickness, depth (m)."""


class FirstFramingAligned(LayerError):
    """A framed layer aligned with framing further inside, where there is none."""


class HouseError(CoreError):
    """A house whose parts do not fit together."""


class UnknownName(HouseError):
    """A name that nothing bears. Facts: what, name, known."""


class NameTaken(HouseError):
    """Two things of one list with one name. Facts: name."""


class NothingInside(HouseError):
    """A house without a space inside the thermal boundary."""


class ComponentWithinOneSpace(HouseError):
    """A part between a space and itself that is no partition or inner floor. Facts: kind, space."""


class WrongSide(HouseError):
    """A part that starts outdoors or in the ground, or a kind that cannot face what it faces.

    Facts: kind, space.
    """


class GroundFactsMissing(HouseError):
    """A ground part without what ISO 13370 needs. Facts: kind, needs."""


class BasementWithoutFloor(HouseError):
    """A basement wall in a space without a basement floor. Facts: space."""


class LooseSpace(HouseError):
    """A buffer from which no heat can reach outdoors, ground or indoors. Facts: space."""


class NegativeConductance(HouseError):
    """Junctions that take off more than the parts between two nodes lose. Facts: space, other."""


class CoolingBelowHeating(HouseError):
    """A cooling set point below the heating set point."""


class RecoveryWithoutBalance(HouseError):
    """Heat recovery in a ventilation system with one fan only."""


class StrategyError(CoreError):
    """A strategy that cannot be applied to the house."""


class NothingToChange(StrategyError):
    """A change that finds nothing to act on. Facts: what, name, component."""


class SeveralFramedLayers(StrategyError):
    """A fill for an assembly where it is not clear into which framed layer. Facts: component."""


def require_within(
    field: str, value: Real, low: float, high: float = float("inf"), *, above: bool = False
) -> None:
    """Refuse a value outside its range, naming the field.

    Shapes: any.
    Range: low to high in the value's own unit; `above` excludes low itself.
    Raises: ImpossibleValue.
    Source: definition.
    """
    if not all_within(value, low, high, open_low=above):
        bound = None if high == float("inf") else high
        too_low = not all_within(value, low, float("inf"), open_low=above)
        raise ImpossibleValue(
            field, low=low, high=bound, above=float(above), too_low=float(too_low)
        )


class TwoTapers(CoreError):
    """An assembly with more than one layer that tapers."""
