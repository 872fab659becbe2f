"""What fasteners through insulation add to U, against ISO 6946.

2017 Annex F.3 (2007 Annex D.3), from memory. Resistances in m2 K/W, lengths in m.
"""

import math

import numpy as np
import pytest

from server.core.assembly import (
    AirLayer,
    ResistanceLayer,
    SolidLayer,
    Ventilation,
    total_resistance,
)
from server.core.errors import ImpossibleValue
from server.core.fasteners import Fasteners, fastener_transmittance
from server.core.films import HeatFlow
from server.core.materials import Material

STEEL = Material("steel", 50.0)
BOARD = Material("board", 0.04)


def screws(per_area, diameter=0.0048, material=STEEL, recess=0.0):
    return Fasteners(material, math.pi * diameter**2 / 4, per_area, recess)


# Steel 4.8 mm, 5 a square metre, through 120 mm of R 3.0 in R 3.37: dU 0.0239 (computed).
# Twice the number twice; half the thickness at the same R twice; half the share of R a quarter;
# heads sunk by half the layer: alpha 0.8 x 1/2. All plain arithmetic on the first.
TABLE = [
    ("the example", screws(5.0), 0.12, 3.0, 3.37, 0.0239),
    ("twice as many", screws(10.0), 0.12, 3.0, 3.37, 0.0478),
    ("half as thick", screws(5.0), 0.06, 3.0, 3.37, 0.0478),
    ("half the share", screws(5.0), 0.12, 1.5, 3.37, 0.0060),
    ("sunk by half", screws(5.0, recess=0.06), 0.12, 3.0, 3.37, 0.0119),
    ("stainless", screws(5.0, material=Material("stainless", 17.0)), 0.12, 3.0, 3.37, 0.0081),
    ("none", screws(0.0), 0.12, 3.0, 3.37, 0.0),
]


@pytest.mark.parametrize(("name", "fasteners", "thickness", "layer", "total", "expected"), TABLE)
def test_fasteners_add(name, fasteners, thickness, layer, total, expected):
    ours = fastener_transmittance(fasteners, thickness, layer, total)
    assert ours == pytest.approx(expected, abs=0.00006), name


def wall(*outside):
    return total_resistance([ResistanceLayer(0.2), *outside], HeatFlow.LEVEL, 0.13, 0.04)


def test_the_wall_of_the_example():
    """R 0.13 + 0.2 + 0.12/0.04 + 0.04 = 3.37, so U = 0.2967 + 0.0239 (arithmetic)."""
    limits = wall(SolidLayer(BOARD, 0.12, fasteners=screws(5.0)))
    assert limits.mean == pytest.approx(3.37, abs=1e-12)
    assert limits.fasteners == pytest.approx(0.0239, abs=0.00006)
    assert 1 / limits.resistance == pytest.approx(0.3206, abs=0.0001)


def test_screws_through_two_boards_are_those_through_one():
    whole = wall(SolidLayer(BOARD, 0.12, fasteners=screws(6.0)))
    halves = wall(*[SolidLayer(BOARD, 0.06, fasteners=screws(6.0))] * 2)
    assert halves.resistance == pytest.approx(whole.resistance, rel=1e-12)


def test_screws_outside_a_ventilated_gap_do_not_count():
    gap = AirLayer(Ventilation.WELL, 0.02)
    assert wall(gap, SolidLayer(BOARD, 0.12, fasteners=screws(5.0))).fasteners == 0.0


def test_slightly_ventilated_lies_between():
    def behind(ventilation, opening=1000e-6):
        gap = AirLayer(ventilation, 0.025, opening)
        return wall(SolidLayer(BOARD, 0.12, fasteners=screws(5.0)), gap).fasteners

    still, well = behind(Ventilation.UNVENTILATED), behind(Ventilation.WELL)
    assert behind(Ventilation.SLIGHTLY) == pytest.approx((still + well) / 2, rel=1e-12)


def test_draws_of_the_number():
    counts = np.array([0.0, 5.0, 10.0])
    limits = wall(SolidLayer(BOARD, 0.12, fasteners=screws(counts)))
    assert limits.resistance.shape == (3,)
    assert limits.resistance[0] == pytest.approx(3.37)
    assert np.all(np.diff(limits.resistance) < 0.0)


def test_heads_cannot_lie_deeper_than_the_layer():
    with pytest.raises(ImpossibleValue) as refused:
        SolidLayer(BOARD, 0.05, fasteners=screws(5.0, recess=0.06))
    assert refused.value.field == "fasteners.recess"
