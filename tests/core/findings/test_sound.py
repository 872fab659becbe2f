"""What insulation does against noise."""

from server.core.findings.base import Severity
from server.core.findings.sound import RULE
from tests.core.findings.cases import CLOSED_CELL, EMPTY_WALL, PARTITION, findings, the_one
from tests.recipes.houses import CEILING, FLOORING, PLASTER, WALL, bays, part, solid

INNER_FLOOR = part(
    "upper floor", "inner floor", ("indoors", "indoors"), [FLOORING, bays(), PLASTER]
)


def test_partition_of_gypsum_board_has_a_published_figure():
    found = the_one(RULE, [WALL, PARTITION], {"partition": {"fill": "mineral wool batt"}})
    assert (found.outcome, found.severity) == ("partition", Severity.WATCH)
    # National Building Code of Canada, Table 9.10.3.1.-A, wall W1 with 1/2 in board (memory)
    assert (found.facts["empty"], found.facts["filled"]) == (32, 34)


def test_partition_of_plaster_has_none():
    plastered = part("partition", "partition", ("indoors", "indoors"), [PLASTER, bays(), PLASTER])
    found = the_one(RULE, [WALL, plastered], {"partition": {"fill": "dense-pack cellulose"}})
    assert found.outcome == "partition, other faces"


def test_foam_in_a_partition_is_not_called_quiet():
    found = the_one(RULE, [WALL, PARTITION], {"partition": {"fill": CLOSED_CELL}})
    assert found.outcome == "foam in a partition"


def test_floor_and_outside_wall():
    change = {
        "upper floor": {"fill": "mineral wool batt"},
        "empty wall": {"fill": "mineral wool batt"},
    }
    found = findings(RULE, [INNER_FLOOR, EMPTY_WALL], change)
    assert set(found) == {"inner floor", "outside wall"}
    assert found["outside wall"].severity is Severity.GOOD


def test_nothing_is_said_where_nothing_of_the_kind_is_touched():
    assert not findings(RULE, [WALL, PARTITION, INNER_FLOOR])
    change = {"upper ceiling": {"fill_thickness": "14 in"}}
    assert not findings(RULE, [WALL, CEILING, PARTITION], change)
    assert not findings(RULE, [WALL, PARTITION], {"partition": {"inside": [solid("gypsum board")]}})
