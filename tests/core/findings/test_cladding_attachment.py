"""Fastening through board. Screws: furring + boards + what lies before the framing + 1 1/2 in.

The hold in the framing and the lengths in stock are common practice (memory); IRC 2021 Tables
R703.15.1 (cladding straight over the foam) and R703.15.2 (strips over it) end at 4 in of foam and
at cladding of 25 lb/ft2, and are for foam right over sheathing on framing (memory).
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.cladding_attachment import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import (
    BOARDS,
    BRICK,
    FELT,
    GABLE,
    PLASTER,
    ROOF,
    SHINGLES,
    SIDING,
    WALL,
    bays,
    part,
    solid,
)

INCH = 0.0254
SIDES = ("indoors", "outdoors")
SCREWS = {"per_area": "0.5625 per ft^2", "material": "steel", "diameter": "0.19 in"}
GAP = {"air_layer": "well ventilated", "thickness": "3/4 in"}
MEMBRANE = solid("self-adhered membrane, vapour-open", "0.6 mm")
NEW_SIDING = solid("wood lap siding")


def board(thickness, **keys):
    return solid("rigid mineral wool board", thickness, **({"fasteners": SCREWS} | keys))


def wrapped(*boards, cladding=(NEW_SIDING,), **keys):
    outside = [MEMBRANE, *boards, GAP, *cladding]
    return {"wall of studs": {"remove": ["old siding"], "outside": outside} | keys}


@pytest.mark.parametrize(
    ("boards", "depth", "needed", "stock", "outcome", "severity"),
    [
        # 3/4 + 2 + 3/4 + 1 1/2 = 5
        (["2 in"], 2, 5, 5, "within tables", Severity.WATCH),
        # 3/4 + 4 + 3/4 + 1 1/2 = 7
        (["2 in", "2 in"], 4, 7, 7, "within tables", Severity.WATCH),
        # 3/4 + 4 1/2 + 3/4 + 1 1/2 = 7 1/2
        (["2 1/2 in", "2 in"], 4.5, 7.5, 8, "beyond tables", Severity.MEND),
        # 3/4 + 11 + 3/4 + 1 1/2 = 14
        (["6 in", "5 in"], 11, 14, 14, "beyond tables", Severity.MEND),
    ],
)
def test_screws_and_tables(boards, depth, needed, stock, outcome, severity):
    found = the_one(RULE, [WALL], wrapped(*map(board, boards)))
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.facts["boards"].value == pytest.approx(depth * INCH)
    assert found.facts["needed"].value == pytest.approx(needed * INCH)
    assert found.facts["screw"].value == pytest.approx(stock * INCH)
    assert found.measured.figure.value == pytest.approx(depth * INCH)
    assert found.measured.limit.value == pytest.approx(4 * INCH)
    # 0.5625 = 9/16 a square foot: one in a square of 4/3 ft, 16 in
    assert found.facts["spacing"].value == pytest.approx(16 * INCH, abs=1e-4)
    # siding of 0.0127 m and 425 kg/m3
    assert found.facts["weight"].value == pytest.approx(5.40, abs=0.01)


def test_no_screw_is_long_enough_for_a_foot_of_board():
    """3/4 + 12 + 3/4 + 1 1/2 = 15 in, and the longest in stock is 14 in."""
    found = the_one(RULE, [WALL], wrapped(board("6 in"), board("6 in")))
    assert (found.outcome, found.severity) == ("no such screw", Severity.MEND)
    assert found.facts["needed"].value == pytest.approx(15 * INCH)


@pytest.mark.parametrize(
    ("thickness", "outcome"),
    [
        ("1 3/4 in", "within tables"),  # 0.04445 m x 2600 = 115.6 kg/m2, 23.7 lb/ft2
        ("2 in", "too heavy"),  # 0.0508 m x 2600 = 132.1 kg/m2, 27.1 lb/ft2
    ],
)
def test_heavy_cladding(thickness, outcome):
    stone = solid("sandstone", thickness)
    found = the_one(RULE, [WALL], wrapped(board("2 in"), cladding=[stone]))
    assert found.outcome == outcome
    if outcome == "too heavy":
        assert found.severity is Severity.MEND
        assert found.measured.figure.value == pytest.approx(132.08, abs=0.01)
        assert found.measured.limit.value == pytest.approx(25 * 4.8824, abs=0.01)


def test_old_siding_that_stays_lengthens_the_screw():
    """3/4 + 2 + 1/2 + 3/4 + 1 1/2 = 5 1/2 in, sold as 6 in."""
    found = the_one(RULE, [WALL], wrapped(board("2 in"), remove=[]))
    assert found.facts["needed"].value == pytest.approx(5.5 * INCH)
    assert found.facts["screw"].value == pytest.approx(6 * INCH)


def test_a_wall_whose_studs_nobody_described():
    """The lining inside of the studs is not gone through: 3/4 + 2 + 3/4 + 1 1/2 = 5 in."""
    wall = part("wall of studs", "wall", SIDES, [PLASTER, BOARDS, SIDING])
    found = the_one(RULE, [wall], wrapped(board("2 in")))
    assert found.facts["screw"].value == pytest.approx(5 * INCH)


def test_a_rim_joist_is_framing_itself():
    """3/4 + 2 + 1 1/2 = 4 1/4 in, sold as 4 1/2 in."""
    rim = part("wall of studs", "wall", SIDES, [solid("softwood", "1 1/2 in"), SIDING])
    found = the_one(RULE, [rim], wrapped(board("2 in")))
    assert found.facts["needed"].value == pytest.approx(4.25 * INCH)
    assert found.facts["screw"].value == pytest.approx(4.5 * INCH)


@pytest.mark.parametrize("cladding", [NEW_SIDING, solid("stucco", "7/8 in")])
@pytest.mark.parametrize(
    ("depth", "outcome", "severity"),
    [
        (2.0, "within tables, no strips", Severity.WATCH),
        (4.5, "beyond tables, no strips", Severity.MEND),
    ],
)
def test_board_right_under_the_cladding_needs_no_furring(depth, outcome, severity, cladding):
    """2 + 3/4 + 1 1/2 = 4 1/4 in."""
    change = {"remove": ["old siding"], "outside": [board(f"{depth} in"), MEMBRANE, cladding]}
    found = the_one(RULE, [WALL], {"wall of studs": change})
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.facts["needed"].value == pytest.approx((depth + 2.25) * INCH)


def test_strips_that_are_described_as_framing_are_strips():
    """3/4 + 2 + 3/4 + 1 1/2 = 5 in."""
    filled = part("wall of studs", "wall", SIDES, [PLASTER, bays("mineral wool batt"), BOARDS])
    strips = bays(depth="3/4 in")
    change = {"outside": [MEMBRANE, board("2 in"), strips, NEW_SIDING]}
    found = the_one(RULE, [filled], {"wall of studs": change})
    assert found.outcome == "within tables"
    assert found.facts["needed"].value == pytest.approx(5 * INCH)


def test_board_on_a_roof():
    """3/4 + 6 + 3/4 + 1 1/2 = 9 in; the tables of cladding do not hold for roofs."""
    change = {
        "remove": ["old roofing", "old felt"],
        "outside": [MEMBRANE, board("3 in"), board("3 in"), GAP, solid("asphalt shingle")],
    }
    found = the_one(RULE, [WALL, ROOF], {"attic roof": change})
    assert (found.outcome, found.severity) == ("roof", Severity.WATCH)
    assert found.facts["needed"].value == pytest.approx(9 * INCH)


def test_board_on_masonry_has_no_framing_behind():
    wall = part("front", "wall", SIDES, [PLASTER, BRICK])
    change = {"front": {"outside": [board("2 in"), solid("stucco", "7/8 in")]}}
    found = the_one(RULE, [wall], change)
    assert (found.outcome, found.severity) == ("on masonry", Severity.WATCH)


def test_furring_inside_of_brick_holds_no_screws():
    lathed = part("front", "wall", SIDES, [PLASTER, bays(depth="3/4 in"), BRICK])
    change = {"front": {"outside": [board("2 in"), GAP, NEW_SIDING]}}
    assert the_one(RULE, [lathed], change).outcome == "on masonry"


BEHIND_BRICK = {"air_layer": "well ventilated", "thickness": "1 in"}
VENEER = solid("brick veneer", "3 5/8 in")
STRAND = solid("oriented strand board", "7/16 in")


@pytest.mark.parametrize("cladding", [[GAP, NEW_SIDING], [solid("stucco", "7/8 in")]])
@pytest.mark.parametrize("depth", ["1 in", "4 in", "12 in"])
@pytest.mark.parametrize(
    "layers",
    [
        [PLASTER, bays("mineral wool batt"), STRAND, FELT, BEHIND_BRICK, VENEER],
        [PLASTER, bays(), BOARDS, VENEER],  # a gap that nobody described
        [PLASTER, bays(), BEHIND_BRICK, VENEER],  # before bare studs
        [PLASTER, bays(), BOARDS, solid("modern fired brick", "8 in")],
        [solid("softwood", "1 1/2 in"), BOARDS, BEHIND_BRICK, VENEER],
        [PLASTER, BOARDS, BEHIND_BRICK, VENEER],  # studs that nobody described
        [PLASTER, solid("dense concrete block", "8 in"), BEHIND_BRICK, VENEER],
        [PLASTER, bays(), BOARDS, BEHIND_BRICK, SIDING],  # air behind siding that stays
    ],
)
def test_no_table_is_for_screws_through_brick_or_air(layers, depth, cladding):
    """Whatever the depth of the board, and whether such a screw is sold."""
    wall = part("front", "wall", SIDES, layers)
    found = the_one(RULE, [wall], {"front": {"outside": [board(depth), *cladding]}})
    assert (found.outcome, found.severity) == ("beyond tables, not on sheathing", Severity.MEND)
    assert found.measured is None


def test_air_between_the_sheathing_or_the_boards():
    drain = {"air_layer": "slightly ventilated", "thickness": "1/4 in"}
    for boards in ([drain, board("2 in")], [board("1 in"), drain, board("1 in")]):
        assert the_one(RULE, [WALL], wrapped(*boards)).outcome == "beyond tables, not on sheathing"


def test_a_veneer_that_comes_off_leaves_board_on_sheathing():
    layers = [PLASTER, bays(), BOARDS, BEHIND_BRICK | {"name": "gap"}, VENEER | {"name": "brick"}]
    wall = part("front", "wall", SIDES, layers)
    outside = [MEMBRANE, board("4 in"), GAP, NEW_SIDING]
    change = {"front": {"remove": ["gap", "brick"], "outside": outside}}
    assert the_one(RULE, [wall], change).outcome == "within tables"


def test_a_new_veneer_outside_of_board_is_no_brick_behind_it():
    outside = [MEMBRANE, board("2 in"), BEHIND_BRICK, VENEER]
    change = {"wall of studs": {"remove": ["old siding"], "outside": outside}}
    assert the_one(RULE, [WALL], change).outcome == "too heavy"


def test_board_that_nothing_is_said_to_hang_on():
    change = {"wall of studs": {"remove": ["old siding"], "outside": [MEMBRANE, board("2 in")]}}
    found = the_one(RULE, [WALL], change)
    assert found.outcome == "weight not known"


def test_what_is_not_given_is_open():
    bare = the_one(RULE, [WALL], wrapped(solid("rigid mineral wool board", "2 in")))
    assert (bare.outcome, bare.severity) == ("no screws given", Severity.OPEN)
    assert bare.facts["screw"].value == pytest.approx(5 * INCH)
    mine = {"my siding": {"conductivity": "0.1 W/(m*K)"}}
    change = wrapped(board("2 in"), cladding=[solid("my siding")])
    found = the_one(RULE, [WALL], change, materials=mine)
    assert (found.outcome, found.severity) == ("weight not known", Severity.OPEN)


def test_nothing_is_said_without_new_board_outside():
    assert not findings(RULE, [WALL, ROOF, GABLE])
    assert not findings(RULE, [WALL], {"wall of studs": {"inside": [board("2 in")]}})
    assert not findings(RULE, [WALL], {"wall of studs": {"outside": [NEW_SIDING]}})
    knee = part("knee wall", "wall", ("indoors", "attic"), WALL["layers"])
    roof = part("attic roof", "roof", ("attic", "outdoors"), [BOARDS, FELT, SHINGLES])
    change = {"knee wall": {"outside": [board("2 in")]}}
    assert not findings(RULE, [WALL, knee, roof], change)


@pytest.mark.parametrize("ventilation", ["unventilated", "slightly ventilated", "well ventilated"])
def test_furring_counts_whether_its_gap_is_vented_or_not(ventilation):
    """3/4 + 2 + 3/4 + 1 1/2 = 5 in."""
    gap = GAP | {"air_layer": ventilation}
    change = {"remove": ["old siding"], "outside": [MEMBRANE, board("2 in"), gap, NEW_SIDING]}
    found = the_one(RULE, [WALL], {"wall of studs": change})
    assert found.facts["needed"].value == pytest.approx(5 * INCH)
