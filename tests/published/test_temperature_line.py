"""Temperatures between layers and the losses between label and wall.

The expected figures are plain arithmetic on the resistances in the tables: each temperature is the
inside one less the difference times the share of R passed. One case stands in the ISO 13788
literature's usual form (fRsi). m2 K/W, deg C.
"""

import pytest

from server.core.assembly import (
    AirLayer,
    FramedLayer,
    ResistanceLayer,
    SolidLayer,
    Ventilation,
    total_resistance,
)
from server.core.fasteners import Fasteners
from server.core.films import HeatFlow
from server.core.label_against_real import real_resistance
from server.core.materials import Material
from server.core.temperature_line import Route, interface_temperatures, route_steps

LEVEL, UP = HeatFlow.LEVEL, HeatFlow.UP
BOARD = Material("board", 0.13)
WOOL = Material("wool", 0.036)
GYPSUM = Material("gypsum", 0.25)
WOOD = Material("wood", 0.13)
SIDING = Material("siding", 0.13)

# Inside to outside: 12.5 mm gypsum, 140 mm wool, 12.5 mm board; R_T 4.2050; 20 deg C and -1 deg C.
# R passed from outside: 0.04, 0.1362, 4.0250, 4.0750, 4.2050; T = -1 + 21 R / 4.2050.
DRY_WALL = (SolidLayer(GYPSUM, 0.0125), SolidLayer(WOOL, 0.140), SolidLayer(BOARD, 0.0125))
BY_HAND = (20.0, 19.351, 19.101, -0.320, -0.800, -1.0)


def temperatures(layers, route=Route.FILL, flow=LEVEL, inside=20.0, outside=-1.0):
    steps = route_steps(layers, route, flow, 0.13 if flow is LEVEL else 0.10, 0.04)
    return interface_temperatures(steps, inside, outside)


def test_a_plain_wall_by_hand():
    assert temperatures(DRY_WALL) == pytest.approx(BY_HAND, abs=0.001)


def test_the_inside_surface_is_one_minus_u_rsi():
    """f_Rsi = 1 - U R_si of ISO 13788 (memory)."""
    u_value = 1 / total_resistance(DRY_WALL, LEVEL, 0.13, 0.04).mean
    factor = (temperatures(DRY_WALL)[1] + 1.0) / 21.0
    assert factor == pytest.approx(1 - u_value * 0.13, abs=1e-12)


STUDS = FramedLayer(WOOD, 0.25, 0.09, WOOL)
FRAMED = (SolidLayer(GYPSUM, 0.0125), STUDS, SolidLayer(BOARD, 0.0125))


def test_framing_is_warmer_outside_and_colder_inside():
    """Fill 0.09/0.036 = 2.5 of R 2.8162; wood 0.09/0.13 = 0.6923 of R 1.0085 (arithmetic)."""
    through_fill = temperatures(FRAMED)
    through_wood = temperatures(FRAMED, Route.FRAMING)
    assert through_fill[1] == pytest.approx(20 - 21 * 0.13 / 2.81615, abs=0.001)
    assert through_wood[1] == pytest.approx(20 - 21 * 0.13 / 1.00846, abs=0.001)
    assert through_wood[-3] > through_fill[-3]


def resistance(layers, route, flow=LEVEL):
    inside = 0.13 if flow is LEVEL else 0.10
    return sum(step.resistance for step in route_steps(layers, route, flow, inside, 0.04))


PARTLY = FramedLayer(WOOD, 0.25, 0.14, WOOL, fill_thickness=0.09)
EMPTY = FramedLayer(WOOD, 0.25, 0.09, open_ends=True)
ATTIC = FramedLayer(WOOD, 0.10, 0.14, WOOL, fill_thickness=0.30, open=True)
SHALLOW = FramedLayer(WOOD, 0.10, 0.14, WOOL, fill_thickness=0.10, open=True)


@pytest.mark.parametrize("bay", [STUDS, PARTLY, EMPTY, ATTIC, SHALLOW])
@pytest.mark.parametrize("gap", [None, 700e-6, 1000e-6])
def test_routes_side_by_side_are_the_upper_limit(bay, gap):
    layers = [SolidLayer(GYPSUM, 0.0125), bay]
    if gap is not None:
        air = AirLayer(Ventilation.SLIGHTLY, 0.025, gap)
        layers += [air, SolidLayer(SIDING, 0.02)]
    routes = {route: resistance(layers, route, UP) for route in Route}
    side_by_side = 1 / (
        bay.fraction / routes[Route.FRAMING] + (1 - bay.fraction) / routes[Route.FILL]
    )
    expected = total_resistance(layers, UP, 0.10, 0.04).upper
    # what is slightly ventilated is mixed route by route here, limit by limit there
    assert side_by_side == pytest.approx(expected, rel=1e-9 if gap is None else 0.01)


def test_behind_a_well_ventilated_gap_it_is_as_cold_as_outdoors():
    layers = [*DRY_WALL, AirLayer(Ventilation.WELL, 0.02), SolidLayer(SIDING, 0.02)]
    line = temperatures(layers)
    assert line[-3:] == pytest.approx((-1.0, -1.0, -1.0))
    assert line[4] == pytest.approx(-1 + 21 * 0.13 / (4.2050 + 0.09), abs=0.001)


def test_slightly_ventilated_sums_to_the_total():
    layers = [*DRY_WALL, AirLayer(Ventilation.SLIGHTLY, 0.025), SolidLayer(SIDING, 0.02)]
    expected = total_resistance(layers, LEVEL, 0.13, 0.04).mean
    assert resistance(layers, Route.FILL) == pytest.approx(expected, rel=1e-12)


def test_label_against_real_of_the_handbook_wall():
    """ASHRAE wood-frame wall, 16 in o.c. (memory): 19.11 unframed, mean of 15.853 and 14.823."""
    unit = 0.1761102
    stud = Material("stud", 3.5 * 0.0254 / (4.375 * unit))
    batt = Material("batt", 3.5 * 0.0254 / (13.0 * unit))
    layers = [
        ResistanceLayer(0.45 * unit),
        FramedLayer(stud, 0.25, 3.5 * 0.0254, batt, empty_share=0.05),
        ResistanceLayer(4.81 * unit),
    ]
    found = real_resistance(layers, LEVEL, 0.68 * unit, 0.17 * unit)
    assert found.unframed / unit == pytest.approx(19.11, abs=0.005)
    assert found.framed / unit == pytest.approx(15.338, abs=0.005)
    assert found.framing_cost / unit == pytest.approx(19.11 - 15.338, abs=0.01)
    assert found.missed_cost > 0.0
    assert found.fastener_cost == 0.0


def test_the_losses_sum_to_the_whole():
    screws = Fasteners(Material("steel", 50.0), 1.8e-5, 6.0)
    layers = [*FRAMED, SolidLayer(WOOL, 0.05, fasteners=screws)]
    found = real_resistance(layers, LEVEL, 0.13, 0.04)
    costs = found.framing_cost + found.missed_cost + found.fastener_cost
    assert found.unframed - costs == pytest.approx(found.real, rel=1e-12)
    assert found.fastener_cost > 0.0
    assert found.real == pytest.approx(total_resistance(layers, LEVEL, 0.13, 0.04).resistance)


def test_framing_in_an_empty_bay_resists_more_than_the_air():
    found = real_resistance([SolidLayer(GYPSUM, 0.0125), EMPTY], LEVEL, 0.13, 0.04)
    assert found.framing_cost < 0.0
