"""A brick veneer, whose gap and weeps have to stay clear. IRC R703.8 (memory)."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.brick_veneer import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import BOARDS, BRICK, PLASTER, SIDING, WALL, bays, part, solid

SIDES = ("indoors", "outdoors")
GAP = {"air_layer": "slightly ventilated", "thickness": "1 in", "name": "gap"}
VENEER = solid("brick veneer", "4 in", name="veneer")
BEHIND = [PLASTER, bays(), BOARDS]
WRAPPED = {"outside": [solid("rigid mineral wool board", "2 in")]}


def wall(*layers):
    return part("front", "wall", SIDES, list(layers))


FRONT = wall(*BEHIND, GAP, VENEER)


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("open", "open", Severity.GOOD),
        ("blocked or none", "blocked", Severity.MEND),
        (None, "not looked at", Severity.OPEN),
    ],
)
def test_weeps_as_found_and_where_the_wall_is_worked_on(answer, outcome, severity):
    for change in (None, {"front": {"fill": "dense-pack cellulose"}}):
        found = the_one(RULE, [FRONT], change, seen={"veneer_weeps": answer})
        assert (found.outcome, found.severity) == (outcome, severity)
        assert found.components == ("front",)


@pytest.mark.parametrize(
    "layers",
    [
        [*BEHIND, GAP, solid("modern fired brick", "3 5/8 in")],
        [*BEHIND, VENEER],  # a gap that nobody described
        [PLASTER, solid("dense concrete block", "8 in"), GAP, VENEER],
    ],
)
def test_veneers(layers):
    assert the_one(RULE, [wall(*layers)]).outcome == "not looked at"


@pytest.mark.parametrize(
    "layers",
    [
        [PLASTER, BRICK],  # brick that carries the house, plastered inside
        [PLASTER, bays(depth="3/4 in"), BRICK],  # and lathed on furring
        [PLASTER, solid("old soft brick", "8 in"), solid("modern fired brick", "4 in")],
        [*BEHIND, solid("modern fired brick", "6 in")],  # more than 5 in, IRC R703.8 (memory)
        [*BEHIND, SIDING],
        [*BEHIND, solid("stucco", "7/8 in")],
    ],
)
def test_walls_that_are_no_veneers(layers):
    assert not findings(RULE, [wall(*layers)])


def rebuilt_as(*layers):
    """The front built up anew, as another wall of the house stands."""
    other = part("back", "wall", SIDES, list(layers))
    change = {"front": "back as found"}
    return findings(RULE, [FRONT, other], change, seen={"veneer_weeps": "open"})


def test_a_gap_that_is_filled_is_stopped():
    wool = solid("rigid mineral wool board", "1 in")
    found = rebuilt_as(PLASTER, bays("mineral wool batt"), BOARDS, wool, VENEER)
    assert set(found) == {"gap filled"}
    assert found["gap filled"].severity is Severity.STOP
    assert found["gap filled"].components == ("front",)


def test_a_gap_that_stays_is_not_called_filled():
    assert set(rebuilt_as(PLASTER, bays("mineral wool batt"), BOARDS, GAP, VENEER)) == {"open"}


OVER = {"front": WRAPPED}


@pytest.mark.parametrize("answer", ["open", "blocked or none", None])
@pytest.mark.parametrize("ventilation", ["slightly ventilated", "well ventilated"])
def test_board_over_a_veneer_is_washed_behind_by_outdoor_air(answer, ventilation):
    front = wall(*BEHIND, GAP | {"air_layer": ventilation}, VENEER)
    found = the_one(RULE, [front], OVER, seen={"veneer_weeps": answer})
    assert (found.outcome, found.severity) == ("covered", Severity.MEND)
    assert found.components == ("front",)


SIDED = {"air_layer": "well ventilated", "thickness": "3/4 in"}


@pytest.mark.parametrize(
    "outside",
    [
        [solid("expanded polystyrene", "4 in"), solid("stucco", "7/8 in")],
        [solid("rigid mineral wool board", "4 in"), SIDED, SIDING],
        [bays("mineral wool batt"), SIDING],  # between framing of its own
    ],
)
@pytest.mark.parametrize(
    "layers",
    [
        [*BEHIND, GAP, VENEER],
        [*BEHIND, VENEER],  # a gap that nobody described
        [*BEHIND, GAP, VENEER, solid("stucco", "3/4 in")],  # rendered long ago
        [solid("softwood", "1 1/2 in"), BOARDS, GAP, VENEER],  # a rim joist
        [PLASTER, solid("dense concrete block", "8 in"), GAP, VENEER],
    ],
)
def test_whatever_insulation_over_whatever_veneer(layers, outside):
    found = the_one(RULE, [wall(*layers)], {"front": {"outside": outside}})
    assert found.outcome == "covered"


def test_a_veneer_that_was_covered_before():
    covered = wall(*BEHIND, GAP, VENEER, *WRAPPED["outside"], SIDING)
    assert the_one(RULE, [covered]).outcome == "covered"
    filled = {"front": {"fill": "dense-pack cellulose"}}
    assert the_one(RULE, [covered], filled).outcome == "covered"
    assert not findings(RULE, [covered, WALL], {"wall of studs": WRAPPED})


@pytest.mark.parametrize(
    "layers",
    [
        [*BEHIND, solid("rigid mineral wool board", "2 in"), GAP, VENEER],  # behind the gap
        [*BEHIND, GAP, VENEER, solid("stucco", "3/4 in")],  # nothing that insulates
        [*BEHIND, solid("rigid mineral wool board", "2 in"), SIDED, SIDING],
        [PLASTER, BRICK, solid("rigid mineral wool board", "2 in"), SIDING],
        # the inner brick of a cavity wall carries the house
        [PLASTER, bays(depth="3/4 in"), VENEER, solid("cork board", "2 in"), GAP, VENEER],
        [solid("expanded polystyrene"), solid("concrete", "4 in"), solid("expanded polystyrene")],
    ],
)
def test_what_covers_no_veneer(layers):
    assert "covered" not in findings(RULE, [wall(*layers)], seen={"veneer_weeps": "open"})


STILL = GAP | {"air_layer": "unventilated"}


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("blocked or none", "covered, gap closed", Severity.WATCH),
        (None, "covered, gap closed", Severity.WATCH),
        ("open", "covered", Severity.MEND),  # the gap is not as still as it was drawn
    ],
)
def test_a_gap_that_was_taken_as_closed(answer, outcome, severity):
    front = wall(*BEHIND, STILL, VENEER)
    found = the_one(RULE, [front], OVER, seen={"veneer_weeps": answer})
    assert (found.outcome, found.severity) == (outcome, severity)


def test_a_gap_that_the_work_closes():
    """The weeps were open as found; the wall as rebuilt has still air behind the brick."""
    after = rebuilt_as(*BEHIND, STILL, VENEER, *WRAPPED["outside"], SIDING)
    assert set(after) == {"covered, gap closed"}


def test_a_gap_that_is_filled_is_stopped_under_board_too():
    wool = solid("rigid mineral wool board", "1 in")
    assert set(rebuilt_as(*BEHIND, wool, VENEER, *WRAPPED["outside"])) == {"gap filled"}


def test_a_veneer_that_comes_off_asks_nothing():
    change = {"front": {"remove": ["veneer", "gap"], **WRAPPED}}
    assert not findings(RULE, [FRONT], change)


def test_work_elsewhere_says_nothing_of_the_veneer():
    assert not findings(RULE, [FRONT, WALL], {"wall of studs": WRAPPED})
