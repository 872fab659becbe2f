"""What a recipe decides about the parts of one house."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from server.recipes.survey import Json


@dataclass(frozen=True, slots=True)
class Plan:
    """One recipe on one house.

    brought_in: buffers that come inside. tightness: share of the leakage that is left.
    """

    tightness: float
    brought_in: tuple[str, ...] = ()
    changes: Mapping[str, Json] = field(default_factory=dict)
    edges: Mapping[str, Json] = field(default_factory=dict)
