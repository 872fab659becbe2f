"""Brick or stone that carries the house, insulated."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.solid_masonry import RULE
from tests.core.findings.cases import CLOSED_CELL, GYPSUM, findings
from tests.recipes.houses import BOARDS, BRICK, PLASTER, WALL, bays, part, solid

SIDES = ("indoors", "outdoors")
BRICK_WALL = part("front", "wall", SIDES, [PLASTER, BRICK])
LATHED = part("front", "wall", SIDES, [PLASTER, bays(depth="3/4 in"), BRICK])
BOARD = solid("wood-fibre insulation board", "2 in")
INSIDE = {"front": {"inside": [BOARD]}}
OUTSIDE = {"front": {"outside": [BOARD]}}


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        (True, "beams", Severity.MEND),
        (False, "no beams", Severity.GOOD),
        (None, "beams not looked at", Severity.OPEN),
    ],
)
def test_ends_of_beams_in_a_wall_insulated_from_inside(answer, outcome, severity):
    found = findings(RULE, [BRICK_WALL], INSIDE, seen={"beams_in_masonry": answer})
    assert set(found) == {outcome, "freezes"}
    assert found[outcome].severity is severity
    assert found[outcome].components == ("front",)


# Freezing from zone 4 on is a judgement of the application, no published limit.
@pytest.mark.parametrize(
    ("zone", "outcome", "severity"),
    [
        ("3A", "seldom freezes", Severity.WATCH),
        ("4A", "freezes", Severity.MEND),
        ("6A", "freezes", Severity.MEND),
        (None, "freezes", Severity.MEND),
    ],
)
def test_cold_wet_brick(zone, outcome, severity):
    found = findings(RULE, [BRICK_WALL], INSIDE, zone=zone, seen={"beams_in_masonry": False})
    assert set(found) == {outcome, "no beams"}
    assert found[outcome].severity is severity


@pytest.mark.parametrize(
    "change",
    [
        {"inside": [GYPSUM, bays("mineral wool batt")]},
        {"inside": [GYPSUM, solid(CLOSED_CELL, "2 in")], "remove": ["inside face"]},
    ],
)
def test_studs_and_foam_inside_are_insulation_inside(change):
    assert "freezes" in findings(RULE, [BRICK_WALL], {"front": change})


def test_furring_behind_the_lath_that_is_filled_is_insulation_inside():
    change = {"front": {"fill": "dense-pack cellulose"}}
    assert "freezes" in findings(RULE, [LATHED], change)


def test_board_outside():
    found = findings(RULE, [BRICK_WALL], OUTSIDE)
    assert set(found) == {"board outside"}
    assert found["board outside"].severity is Severity.WATCH


def test_both_sides():
    found = findings(RULE, [BRICK_WALL], {"front": {"inside": [BOARD], "outside": [BOARD]}})
    assert set(found) == {"board outside", "beams not looked at", "freezes"}


def test_nothing_is_said_of_brick_that_gets_no_insulation():
    assert not findings(RULE, [BRICK_WALL])
    assert not findings(RULE, [BRICK_WALL], {"front": {"inside": [GYPSUM]}})


def test_a_wall_of_studs_is_none_whatever_stands_before_it():
    board = {"wall of studs": {"outside": [BOARD]}}
    assert not findings(RULE, [WALL], board)
    veneer = [PLASTER, bays(), BOARDS, solid("modern fired brick", "3 5/8 in")]
    filled = {"front": {"fill": "dense-pack cellulose"}}
    assert not findings(RULE, [part("front", "wall", SIDES, veneer)], filled)


@pytest.mark.parametrize(
    "material", ["concrete", "dense concrete block", "lightweight concrete block"]
)
def test_concrete_and_block_are_not_reviewed_for_frost(material):
    wall = part("front", "wall", SIDES, [PLASTER, solid(material, "8 in")])
    assert not findings(RULE, [wall], INSIDE, zone="7")
    found = findings(RULE, [wall], OUTSIDE, zone="7")
    assert set(found) == {"board outside, concrete"}
    assert found["board outside, concrete"].severity is Severity.WATCH


def test_brick_before_block_is_brick():
    layers = [PLASTER, solid("dense concrete block", "4 in"), BRICK]
    found = findings(RULE, [part("front", "wall", SIDES, layers)], INSIDE, zone="7")
    assert "freezes" in found


FILM = solid("polyethylene film", "0.15 mm")
BATTS = bays("mineral wool batt")
FOAM = solid("extruded polystyrene, modern", "2 in")


@pytest.mark.parametrize(
    ("inside", "is_told"),
    [
        ([GYPSUM, FILM, BATTS], True),
        ([GYPSUM, BATTS], False),
        ([GYPSUM, FILM, FOAM], False),
        ([GYPSUM, BATTS, FILM, FOAM], False),
    ],
)
@pytest.mark.parametrize("masonry", [BRICK, solid("concrete", "8 in")])
def test_a_film_inside_of_fibre_before_masonry(masonry, inside, is_told):
    walls = [part("front", "wall", SIDES, [masonry])]
    found = findings(RULE, walls, {"front": {"inside": inside}}, zone="6A")
    assert ("film inside" in found) == is_told
    if is_told:
        assert found["film inside"].severity is Severity.MEND
