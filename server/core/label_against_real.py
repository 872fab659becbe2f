"""What becomes of an assembly's resistance between the packages and the wall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from server.core.arrays import Real
from server.core.assembly import (
    FramedLayer,
    Layer,
    ResistanceLimits,
    SolidLayer,
    total_resistance,
)
from server.core.films import HeatFlow


@dataclass(frozen=True, slots=True, eq=False)
class RealResistance:
    """Total resistances with films, m2 K/W, each with one more loss than the one before.

    unframed: the same layers without framing. framed: framing in. filled: and what the installer
    missed. real: and fasteners. limits: both bounds of `filled`.
    """

    unframed: Real
    framed: Real
    filled: Real
    real: Real
    limits: ResistanceLimits

    @property
    def framing_cost(self) -> Real:
        """What framing takes off, m2 K/W; below zero where it resists more than its bays."""
        return self.unframed - self.framed

    @property
    def missed_cost(self) -> Real:
        """What missed spots take off, m2 K/W."""
        return self.framed - self.filled

    @property
    def fastener_cost(self) -> Real:
        """What fasteners take off, m2 K/W."""
        return self.filled - self.real


def real_resistance(
    layers: Sequence[Layer], flow: HeatFlow, inside_film: float, outside_film: float
) -> RealResistance:
    """The real resistance of an assembly, and what took it there from the unframed one.

    Shapes: layer quantities any that broadcast; results alike, m2 K/W.
    Range: as `total_resistance`.
    Raises: nothing.
    Source: ISO 6946:2017 6.7.2 and Annex F.3, once for each loss left out.
    """
    films = (flow, inside_film, outside_film)
    limits = total_resistance(layers, *films)
    return RealResistance(
        unframed=total_resistance([_unframed(layer) for layer in layers], *films).mean,
        framed=total_resistance([_fully_filled(layer) for layer in layers], *films).mean,
        filled=limits.mean,
        real=limits.resistance,
        limits=limits,
    )


def _unframed(layer: Layer) -> Layer:
    if isinstance(layer, FramedLayer):
        return replace(layer, fraction=0.0, empty_share=0.0)
    return replace(layer, fasteners=None) if isinstance(layer, SolidLayer) else layer


def _fully_filled(layer: Layer) -> Layer:
    return replace(layer, empty_share=0.0) if isinstance(layer, FramedLayer) else layer
