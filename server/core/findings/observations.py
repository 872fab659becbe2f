"""What the survey saw that is no figure of the heat balance."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class PartSeen:
    """What was seen of one component; None where nobody looked."""

    access: str | None = None
    reached_from: str | None = None
    wetness: str | None = None
    condition: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Observations:
    """Answers of the survey, in its own words; None where nobody looked.

    parts: by the name of the component.
    """

    year_built: int | None = None
    gutters: str | None = None
    ground_slope: str | None = None
    flashing: str | None = None
    below_grade: str | None = None
    crawl_ground_cover: str | None = None
    termites: str | None = None
    radon: str | None = None
    combustion: str | None = None
    chimney: str | None = None
    flues_through_attic: bool | None = None
    wiring: str | None = None
    loose_fill: str | None = None
    asbestos: str | None = None
    lead_paint: str | None = None
    framing: str | None = None
    plaster: str | None = None
    inside_paint: str | None = None
    veneer_weeps: str | None = None
    beams_in_masonry: bool | None = None
    parts: Mapping[str, PartSeen] = field(default_factory=dict)

    def of(self, component: str) -> PartSeen:
        """What was seen of a component."""
        return self.parts.get(component, PartSeen())
