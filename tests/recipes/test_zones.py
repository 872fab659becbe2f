"""The code's table and the thicknesses made of it."""

import pytest

from server.files import seeds
from server.formatting import inches_text
from server.recipes import stock
from server.recipes.zones import REQUIREMENTS, requirement


# IECC 2021 Table R402.1.3, from memory.
@pytest.mark.parametrize(
    ("zone", "wall", "with_fill", "ceiling", "floor", "basement", "edge"),
    [
        ("1A", 10, 5, 30, 13, 0, 0),
        ("2B", 10, 5, 49, 13, 0, 0),
        ("3A", 15, 5, 49, 19, 5, 10),
        ("4A", 20, 10, 60, 19, 10, 10),
        ("5A", 20, 10, 60, 30, 15, 10),
        ("6B", 20, 10, 60, 30, 15, 10),
        ("7", 20, 10, 60, 38, 15, 10),
        ("8", 20, 10, 60, 38, 15, 10),
    ],
)
def test_what_a_zone_asks(zone, wall, with_fill, ceiling, floor, basement, edge):
    asked = requirement(zone)
    assert (asked.wall, asked.wall_with_fill, asked.ceiling) == (wall, with_fill, ceiling)
    assert (asked.floor, asked.basement_wall, asked.slab_edge) == (floor, basement, edge)


@pytest.mark.parametrize("zone", [None, "", "marine", "12", "9"])
def test_an_unknown_zone_is_taken_as_the_fourth(zone):
    assert requirement(zone) is REQUIREMENTS[4]


@pytest.mark.parametrize(
    ("resistance", "most", "thickness"),
    [(0, 4, 0), (5, 4, 1.5), (10, 4, 2.5), (15, 4, 4), (20, 4, 4), (30, 8, 7.5), (60, 8, 8)],
)
def test_board_comes_in_half_inches(resistance, most, thickness):
    assert stock.board_in(resistance, most) == thickness


@pytest.mark.parametrize(
    ("resistance", "batt"), [(13, 3.5), (19, 5.5), (30, 7.25), (38, 9.25), (60, 9.25)]
)
def test_batts_come_as_deep_as_framing(resistance, batt):
    assert stock.batt_in(resistance) == batt


@pytest.mark.parametrize("thickness", [1.5, 2.5, 4.0, 7.5, 8.0])
def test_two_layers_make_the_whole(thickness):
    inner, outer = stock.halves_in(thickness)
    assert inner + outer == thickness
    assert 0.0 <= inner - outer <= 0.5
    assert inner * 2 == int(inner * 2)


@pytest.mark.parametrize(
    ("thickness", "text"),
    [(3.625, "3 5/8 in"), (4.0, "4 in"), (0.5, "1/2 in"), (2.5, "2 1/2 in"), (0.3125, "5/16 in")],
)
def test_inches_are_written_as_the_trade_does(thickness, text):
    assert inches_text(thickness) == text


@pytest.mark.parametrize(
    ("material", "per_inch"),
    [
        ("dense-pack cellulose", stock.DENSE_PACK_R),
        ("mineral wool batt", stock.BATT_R),
        ("rigid mineral wool board", stock.BOARD_R),
        ("expanded polystyrene", stock.BOARD_R),
    ],
)
def test_a_nominal_figure_is_near_the_seed_material(material, per_inch):
    conductivity = seeds.materials()[material].conductivity
    assert stock.INCH / conductivity * stock.R_PER_SI == pytest.approx(per_inch, rel=0.06)


def test_blown_depth_meets_the_resistance():
    # R-49 in cellulose takes about 14 in, common practice.
    depth = stock.blown_depth_in(49.0, 0.042)
    assert 14.0 <= depth <= 14.5
    assert depth * stock.INCH / 0.042 * stock.R_PER_SI >= 49.0
