"""A cellar or crawlspace that comes inside. IRC R408.3 for the latter (memory)."""

from server.core.findings.base import Severity
from server.core.findings.cellar_line import RULE
from tests.core.findings.cases import findings
from tests.recipes.houses import BASEMENT_FLOOR, BASEMENT_WALL, BRICK, FLOOR, WALL, part, solid

INSIDE = {"inside": ["basement"]}
FOAM = {"basement wall": {"inside": [solid("expanded polystyrene", "2 in")]}}


def test_bare_walls_are_told():
    found = findings(RULE, [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR], does=INSIDE)
    assert found["walls left bare"].components == ("basement wall",)
    assert found["walls left bare"].severity is Severity.MEND


def test_insulated_walls_over_a_concrete_floor_are_not():
    parts = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR]
    assert findings(RULE, parts, FOAM, does=INSIDE) == {}


def test_a_crawlspace_needs_cover_and_air():
    ground = BASEMENT_FLOOR | {"layers": [solid("clay or silt soil", "4 in")]}
    found = findings(RULE, [WALL, FLOOR, BASEMENT_WALL, ground], FOAM, does=INSIDE)
    assert set(found) == {"crawlspace closed"}


def test_a_crawlspace_over_a_sheet_still_needs_air():
    ground = BASEMENT_FLOOR | {
        "layers": [solid("polyethylene film", "0.15 mm"), solid("clay or silt soil", "4 in")]
    }
    found = findings(RULE, [WALL, FLOOR, BASEMENT_WALL, ground], FOAM, does=INSIDE)
    assert set(found) == {"crawlspace closed, covered"}
    assert found["crawlspace closed, covered"].severity is Severity.WATCH


def test_no_pipe_freezes_in_miami():
    change = {"floor": {"outside": [solid("rigid mineral wool board", "2 in")]}}
    parts = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR]
    for region, told in (("south-florida", False), ("twin-cities-mn", True)):
        found = findings(RULE, parts, change, climate={"region": region})
        assert ("left colder" in found) == told, region


def test_it_is_silent_of_attics_and_where_nothing_moves():
    gable = part("gable", "wall", ("attic", "outdoors"), [BRICK])
    roof = part("roof", "roof", ("attic", "outdoors"), [solid("plywood")])
    assert findings(RULE, [WALL, gable, roof], does={"inside": ["attic"]}) == {}
    assert findings(RULE, [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR]) == {}


def test_a_cellar_that_comes_inside_gets_no_colder():
    change = {"floor": {"outside": [solid("rigid mineral wool board", "2 in")]}}
    parts = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR]
    assert "left colder" in findings(RULE, parts, change)
    inside = findings(RULE, parts, change, does={"inside": ["basement"]})
    assert "left colder" not in inside


def test_a_floor_of_which_only_its_r_is_known_goes_by_its_depth():
    """From 4 ft on it is a cellar (common practice)."""

    def dug(depth):
        floor = BASEMENT_FLOOR | {"layers": [{"resistance": "R-1"}], "depth_below_grade": depth}
        return findings(RULE, [WALL, FLOOR, BASEMENT_WALL, floor], FOAM, does=INSIDE)

    assert set(dug("2 ft")) == {"crawlspace closed"}
    assert dug("7 ft") == {}
