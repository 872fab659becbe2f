"""What people read of board over brick and over sheathing, and of board under a slab."""

import pytest

from server.core.findings import brick_veneer, cladding_attachment, load_on_board
from server.finding_words.telling import told
from tests.core.findings.cases import the_one
from tests.recipes.houses import BOARDS, PLASTER, SIDING, SLAB, WALL, bays, part, solid

SIDES = ("indoors", "outdoors")
SCREWS = {"per_area": "0.5625 per ft^2", "material": "steel", "diameter": "0.19 in"}
GAP = {"air_layer": "well ventilated", "thickness": "1 in"}
STUCCO = solid("stucco", "7/8 in")
VENEERED = part(
    "front",
    "wall",
    SIDES,
    [PLASTER, bays("mineral wool batt"), BOARDS, GAP, solid("brick veneer", "3 5/8 in")],
)


def board(thickness):
    return solid("rigid mineral wool board", thickness, fasteners=SCREWS)


def said(rule, parts, changes=None, **keys):
    """Text and remedy, with plain spaces."""
    words = told(the_one(rule, parts, changes, **keys), "ip")
    return words.text.replace("\u00a0", " "), words.mend.replace("\u00a0", " ")


def over_studs(depth, *cladding):
    outside = [board(depth), *cladding]
    change = {"wall of studs": {"remove": ["old siding"], "outside": outside}}
    return said(cladding_attachment.RULE, [WALL], change)


@pytest.mark.parametrize("depth", ["2 in", "4 1/2 in"])
def test_strips_are_only_named_where_there_are_some(depth):
    with_strips, _mend = over_studs(depth, GAP, SIDING)
    assert with_strips.startswith(f"Strips over {depth} of board")
    for cladding in (SIDING, STUCCO):
        text, _mend = over_studs(depth, cladding)
        assert text.startswith(f"Cladding straight over {depth} of board")
        assert "trips over" not in text


def test_board_over_a_veneer_needs_an_engineer_and_is_not_told_to_stay_so():
    change = {"front": {"outside": [board("4 in"), GAP, SIDING]}}
    text, mend = said(cladding_attachment.RULE, [VENEERED], change)
    assert "tables reach this far" not in text
    assert "no more than 4 in" not in mend
    assert "engineered" in mend
    text, mend = said(brick_veneer.RULE, [VENEERED], change, seen={"veneer_weeps": "open"})
    assert "keep them so" not in text
    assert "hardly counts" in text
    for words in ("Take the veneer off", "engineer", "top and bottom", "drains", "do not count on"):
        assert words in mend


def test_weeps_of_bare_brick_are_still_kept_open():
    text, _mend = said(brick_veneer.RULE, [VENEERED], seen={"veneer_weeps": "open"})
    assert "keep them so" in text


def test_a_filled_gap_is_not_mended_by_board_over_the_brick():
    wool = solid("rigid mineral wool board", "1 in")
    layers = [PLASTER, bays("mineral wool batt"), BOARDS, wool, VENEERED["layers"][-1]]
    other = part("back", "wall", SIDES, layers)
    text, mend = said(brick_veneer.RULE, [VENEERED, other], {"front": "back as found"})
    assert "no longer drains" in text
    assert "outside of the brick" not in mend
    assert "Leave the gap" in mend


@pytest.mark.parametrize("strength", [100, 250])
def test_a_footing_presses_with_up_to_the_bearing_of_its_soil(strength):
    """1500 lb/ft2 = 10.4 psi is the least allowable bearing, IRC 2021 Table R401.4.1 (memory)."""
    mine = {"conductivity": "0.035 W/(m*K)", "group": "rigid-foam"}
    mine |= {"compressive_strength": f"{strength} kPa"}
    slab = SLAB | {"layers": [solid("concrete", "4 in"), solid("my board", "2 in")]}
    text, _mend = said(load_on_board.RULE, [WALL, slab], materials={"my board": mine})
    assert "or more" not in text
    assert "10.4 psi" in text
    assert "on better soil" in text
    assert ("may press with up to 10.4 psi" in text) == (strength == 100)
