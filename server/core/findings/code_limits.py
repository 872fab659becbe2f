"""What an energy code asks of each part of a house, as U of the whole part, by climate zone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from server.core.errors import require_within
from server.core.films import HOUR_FT2_DEGF_PER_BTU

UNIT = 1.0 / HOUR_FT2_DEGF_PER_BTU  # W/(m2 K) in one Btu/(h ft2 degF)
MARINE_4 = 4.5  # zone 4C has a row of its own, between 4 and 5


@dataclass(frozen=True, slots=True)
class Limits:
    """The most that U may be, W/(m2 K); shgc the most of an opening, None where none is asked."""

    window: float
    skylight: float
    shgc: float | None
    ceiling: float
    frame_wall: float
    mass_wall: float
    floor: float
    basement_wall: float
    crawl_wall: float


def _row(*figures: float | None) -> Limits:
    """Btu/(h ft2 degF) as printed, shgc third."""
    window, skylight, shgc, *others = figures
    assert window is not None
    assert skylight is not None
    return Limits(window * UNIT, skylight * UNIT, shgc, *(each * UNIT for each in others if each))


_ZONE_4_ON_2021 = (0.024, 0.045, 0.098, 0.047, 0.059, 0.065)
# IECC 2021 Table R402.1.2, from memory: window, skylight, SHGC, ceiling, frame wall, mass wall,
# floor, basement wall, crawlspace wall. No SHGC limit in zones 6 to 8, and in 5 and marine 4 0.40.
_IECC_2021 = {
    1.0: _row(0.50, 0.75, 0.25, 0.035, 0.084, 0.197, 0.064, 0.360, 0.477),
    2.0: _row(0.40, 0.65, 0.25, 0.026, 0.084, 0.165, 0.064, 0.360, 0.477),
    3.0: _row(0.30, 0.55, 0.25, 0.026, 0.060, 0.098, 0.047, 0.091, 0.136),
    4.0: _row(0.30, 0.55, 0.40, *_ZONE_4_ON_2021),
    MARINE_4: _row(0.30, 0.55, 0.40, 0.024, 0.045, 0.082, 0.033, 0.050, 0.055),
    5.0: _row(0.30, 0.55, 0.40, 0.024, 0.045, 0.082, 0.033, 0.050, 0.055),
    6.0: _row(0.30, 0.55, None, 0.024, 0.045, 0.060, 0.033, 0.050, 0.055),
    7.0: _row(0.30, 0.55, None, 0.024, 0.045, 0.057, 0.028, 0.050, 0.055),
    8.0: _row(0.30, 0.55, None, 0.024, 0.045, 0.057, 0.028, 0.050, 0.055),
}
# IECC 2018 Table R402.1.4, from memory. No window limit in zone 1 is taken as 0.50.
_IECC_2018 = {
    1.0: _row(0.50, 0.75, 0.25, 0.035, 0.084, 0.197, 0.064, 0.360, 0.477),
    2.0: _row(0.40, 0.65, 0.25, 0.030, 0.084, 0.165, 0.064, 0.360, 0.477),
    3.0: _row(0.32, 0.55, 0.25, 0.030, 0.060, 0.098, 0.047, 0.091, 0.136),
    4.0: _row(0.32, 0.55, 0.40, 0.026, 0.060, 0.098, 0.047, 0.059, 0.065),
    MARINE_4: _row(0.30, 0.55, None, 0.026, 0.060, 0.082, 0.033, 0.050, 0.055),
    5.0: _row(0.30, 0.55, None, 0.026, 0.060, 0.082, 0.033, 0.050, 0.055),
    6.0: _row(0.30, 0.55, None, 0.026, 0.045, 0.060, 0.033, 0.050, 0.055),
    7.0: _row(0.30, 0.55, None, 0.026, 0.045, 0.057, 0.028, 0.050, 0.055),
    8.0: _row(0.30, 0.55, None, 0.026, 0.045, 0.057, 0.028, 0.050, 0.055),
}
# IECC R402.1.2 footnote: a mass wall with more than half of its insulation inside, memory.
_MASS_WALL_INSIDE = {
    1.0: 0.170,
    2.0: 0.140,
    3.0: 0.120,
    4.0: 0.087,
    MARINE_4: 0.065,
    5.0: 0.065,
    6.0: 0.057,
    7.0: 0.057,
    8.0: 0.057,
}
EDITIONS: Mapping[str, Mapping[float, Limits]] = {
    "IECC 2021": _IECC_2021,
    "IECC 2018": _IECC_2018,
}


@dataclass(frozen=True, slots=True)
class CodeLimits:
    """An edition, and limits of one's own in place of its; by the names of `Limits`.

    Raises: ImpossibleValue.
    """

    edition: str = "IECC 2021"
    own: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, limit in self.own.items():
            most = 1.0 if name == "shgc" else 100.0
            require_within(f"energy_code.{name}", limit, 0.0, most, above=True)

    def limits(self, zone: int, *, marine: bool) -> Limits:
        """The limits of a zone, 1 to 8.

        Shapes: one zone. Range: the editions of `EDITIONS`. Raises: KeyError.
        Source: IECC 2021 Table R402.1.2, IECC 2018 Table R402.1.4 (both memory).
        """
        return replace(EDITIONS[self.edition][_row_of(zone, marine=marine)], **self.own)


def _row_of(zone: int, *, marine: bool) -> float:
    return MARINE_4 if marine and zone == 4 else float(zone)


def mass_wall_inside(zone: int, *, marine: bool) -> float:
    """The most that U of a mass wall may be that is insulated inside, W/(m2 K).

    Shapes: one zone, 1 to 8. Range: both editions. Raises: KeyError.
    Source: IECC R402.1.2, footnote on mass walls (memory).
    """
    return _MASS_WALL_INSIDE[_row_of(zone, marine=marine)] * UNIT


IECC_2021 = CodeLimits()
