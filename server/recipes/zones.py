"""What the energy code asks of each part of a house, by climate zone."""

from __future__ import annotations

import re
from dataclasses import dataclass

ZONE_WHERE_UNKNOWN = 4


@dataclass(frozen=True, slots=True)
class Requirement:
    """Label resistances of one zone, h ft2 degF/Btu; 0 asks for nothing.

    wall: continuous, nothing in the bays. wall_with_fill: continuous, bays filled. basement_wall:
    continuous. slab_edge: down the edge of an unheated slab. deck: above or against the deck of a
    roof whose rafters are filled and not vented.
    """

    wall: int
    wall_with_fill: int
    ceiling: int
    floor: int
    basement_wall: int
    slab_edge: int
    deck: int


# IECC 2021 Table R402.1.3, from memory. Where it lets bays and board be traded, one of its ways.
# Last, IRC 2021 Table R806.5, memory; in marine zone 4 it asks R-10 only.
REQUIREMENTS = {
    1: Requirement(10, 5, 30, 13, 0, 0, 5),
    2: Requirement(10, 5, 49, 13, 0, 0, 5),
    3: Requirement(15, 5, 49, 19, 5, 10, 5),
    4: Requirement(20, 10, 60, 19, 10, 10, 15),
    5: Requirement(20, 10, 60, 30, 15, 10, 20),
    6: Requirement(20, 10, 60, 30, 15, 10, 25),
    7: Requirement(20, 10, 60, 38, 15, 10, 30),
    8: Requirement(20, 10, 60, 38, 15, 10, 35),
}


def requirement(iecc_zone: str | None) -> Requirement:
    """What is asked in a zone such as "4A"; zone 4's where it is not known."""
    number = re.match(r"\s*([1-8])(?![0-9])", iecc_zone or "")
    return REQUIREMENTS[int(number[1]) if number else ZONE_WHERE_UNKNOWN]
