"""Screws of whole constructions: what they go through, and when no length can be told."""

import pytest

from server.crew.fastening import fastenings, is_beyond_tables, screw_gauge, to_buy
from server.files.house_file import StrategyEntry
from server.pricing.layer_work import layer_works
from tests.recipes.houses import BOARDS, BRICK, PLASTER, SIDING, WALL, bays, part, project, solid

INCH = 0.0254  # m
SCREWS = {"per_area": "0.5625 per ft^2", "material": "steel", "diameter": "0.19 in"}
MEMBRANE = solid("self-adhered membrane, vapour-open", "0.6 mm")
GAP = {"air_layer": "well ventilated", "thickness": "3/4 in"}


def board(thickness, **keys):
    return solid("rigid mineral wool board", thickness, fasteners=SCREWS, **keys)


def work_on(wall, **change):
    entry = {"name": "one", "recipe": "own", "changes": {wall["name"]: change}}
    found = project([wall])
    (work,) = layer_works(found.file, StrategyEntry.model_validate(entry))
    return work


def wrapped(*boards, wall=WALL):
    names = [layer["name"] for layer in wall["layers"] if layer == SIDING]
    outside = [MEMBRANE, *boards, GAP, SIDING]
    return work_on(wall, outside=outside, **({"remove": names} if names else {}))


def test_two_boards_are_one_set_of_screws_of_seven_inches():
    (screws,) = fastenings(wrapped(board("2 in"), board("2 in")))
    assert screws.needed == pytest.approx(7.0 * INCH)
    assert screws.stock == pytest.approx(7.0 * INCH)
    assert screws.spacing == pytest.approx(16.0 * INCH)
    assert screws.diameter == pytest.approx(0.19 * INCH)
    assert screws.material == "steel"


def test_board_without_fasteners_has_none():
    assert fastenings(wrapped(solid("rigid mineral wool board", "2 in"))) == ()


def test_tables_end_at_four_inches():
    assert not is_beyond_tables(wrapped(board("2 in"), board("2 in")))
    assert is_beyond_tables(wrapped(board("2 in"), board("2 1/2 in")))


def test_longer_than_the_longest():
    (screws,) = fastenings(wrapped(board("6 in"), board("6 in")))
    assert screws.needed == pytest.approx(15.0 * INCH)
    assert screws.stock is None


def test_into_brick_no_length_is_told():
    wall = part("wall", "wall", ("indoors", "outdoors"), [BRICK])
    (screws,) = fastenings(work_on(wall, outside=[board("2 in"), GAP, SIDING]))
    assert screws.into_masonry
    assert screws.needed is None


AIR = {"air_layer": "slightly ventilated", "thickness": "1 in"}
VENEER = solid("brick veneer", "3 5/8 in")


@pytest.mark.parametrize(
    ("layers", "is_engineered"),
    [
        ([PLASTER, bays(), BOARDS, AIR, VENEER], True),
        ([PLASTER, bays(), BOARDS, solid("modern fired brick", "4 in")], True),
        ([PLASTER, BOARDS, AIR, VENEER], True),  # studs that nobody described
        ([PLASTER, bays(), BOARDS, AIR, SIDING | {"name": "siding that stays"}], True),
        ([PLASTER, bays(), BOARDS, solid("stucco", "7/8 in")], False),
        ([PLASTER, bays(), BOARDS], False),
        ([PLASTER, BRICK], False),
        ([PLASTER, bays(depth="3/4 in"), BRICK], False),  # lathed inside
    ],
)
def test_through_a_veneer_or_air_an_engineer_says_how(layers, is_engineered):
    wall = part("wall", "wall", ("indoors", "outdoors"), layers)
    (screws,) = fastenings(work_on(wall, outside=[board("2 in"), GAP, SIDING]))
    assert screws.is_engineered == is_engineered


def test_board_inside_of_a_veneer_wall_passes_no_brick():
    wall = part("wall", "wall", ("indoors", "outdoors"), [PLASTER, bays(), BOARDS, AIR, VENEER])
    (screws,) = fastenings(work_on(wall, inside=[solid("gypsum board"), board("1 in")]))
    assert not screws.is_engineered


def test_a_layer_of_no_thickness_leaves_the_length_open():
    odd = {"resistance": "R-1", "name": "something"}
    wall = part("wall", "wall", ("indoors", "outdoors"), [PLASTER, bays(), odd, SIDING])
    (screws,) = fastenings(wrapped(board("2 in"), wall=wall))
    assert screws.needed is None
    assert not screws.into_masonry


def test_a_rim_joist_is_framing_itself():
    rim = part(
        "rim", "wall", ("indoors", "outdoors"), [solid("softwood", "1 1/2 in"), BOARDS, SIDING]
    )
    (screws,) = fastenings(wrapped(board("2 in"), wall=rim))
    assert screws.needed == pytest.approx(5.0 * INCH)


def test_new_studs_are_what_screws_go_into():
    outside = [bays("mineral wool batt"), solid("plywood"), board("1 in"), GAP, SIDING]
    wall = part("wall", "wall", ("indoors", "outdoors"), [PLASTER, bays(), BOARDS])
    (screws,) = fastenings(work_on(wall, outside=outside))
    assert screws.needed == pytest.approx((0.75 + 1.0 + 0.5 + 1.5) * INCH)


def test_from_the_room_through_the_old_lining():
    inside = [solid("gypsum board"), board("1 in")]
    (screws,) = fastenings(work_on(WALL, inside=inside))
    assert screws.needed == pytest.approx((1.0 + 0.875 + 1.5) * INCH)
    assert screws.stock == pytest.approx(3.5 * INCH)


def test_a_gap_behind_the_board_is_gone_through_too():
    drain = {"air_layer": "slightly ventilated", "thickness": "1/4 in"}
    outside = [MEMBRANE, drain, board("2 in"), MEMBRANE, GAP, SIDING]
    (screws,) = fastenings(work_on(WALL, remove=["old siding"], outside=outside))
    assert screws.pierced.furring == pytest.approx(0.75 * INCH)
    assert screws.needed == pytest.approx((0.25 + 2.0 + 0.75 + 0.75 + 1.5) * INCH)


def test_siding_right_over_board_is_not_held_by_its_screws():
    (screws,) = fastenings(work_on(WALL, remove=["old siding"], outside=[board("2 in"), SIDING]))
    assert screws.pierced.furring == 0.0
    assert screws.needed == pytest.approx((2.0 + 0.75 + 1.5) * INCH)


@pytest.mark.parametrize(
    ("inches", "number"),
    [(0.19, 10), (0.164, 8), (0.216, 12), (0.242, 14), (0.5, None), (0.05, None)],
)
def test_screws_are_sold_by_number(inches, number):
    assert screw_gauge(inches * INCH) == number


def test_screws_are_counted_on_the_area_and_rounded_up():
    (screws,) = fastenings(wrapped(board("2 in")))
    assert screws.count == pytest.approx(0.5625 * 200)
    assert to_buy(screws.count) == 120
    assert to_buy(120.0000001) == 120
    assert to_buy(120.1) == 130
