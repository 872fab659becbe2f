"""What insulation does in a fire, by what it is made of and its class of EN 13501-1."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.fire_behaviour import RULE
from tests.core.findings.cases import CLOSED_CELL, EMPTY_WALL, findings, the_one
from tests.recipes.houses import WALL, solid


@pytest.mark.parametrize(
    ("fill", "outcome", "severity", "fire_class"),
    [
        # classes after the material table
        ("mineral wool batt", "stone wool", Severity.GOOD, "A1"),
        ("dense-pack glass fibre", "glass wool", Severity.GOOD, "A1"),
        ("dense-pack cellulose", "cellulose", Severity.WATCH, "E"),
        ("wood-fibre batt", "wood fibre", Severity.WATCH, "E"),
        ("sheep wool batt", "natural fibre", Severity.WATCH, "E"),
        (CLOSED_CELL, "urethane foam", Severity.WATCH, "E"),
    ],
)
def test_fill_is_told_by_what_it_is_made_of(fill, outcome, severity, fire_class):
    found = the_one(RULE, [EMPTY_WALL], {"empty wall": {"fill": fill}})
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.facts["materials"] == (fill,)
    assert found.facts["classes"] == (fire_class,)
    assert found.components == ("empty wall",)


@pytest.mark.parametrize(
    ("board", "outcome"),
    [
        ("expanded polystyrene", "polystyrene"),
        ("polyisocyanurate, foil faced, aged", "urethane foam"),
        ("phenolic foam, faced, aged", "phenolic foam"),
        ("wood-wool cement board", "wood-wool cement"),
        ("wood-fibre sheathing board", "wood fibre"),
        ("cellular glass", "cellular glass"),
        ("cork board", "cork"),
        ("rigid glass fibre board", "glass wool"),
        ("perlite board", "burns"),  # class C: it holds more than grains
    ],
)
def test_board_is_told_by_what_it_is_made_of(board, outcome):
    change = {"wall of studs": {"outside": [solid(board, "2 in")]}}
    assert the_one(RULE, [WALL], change).outcome == outcome


def test_what_behaves_alike_stands_together():
    change = {
        "empty wall": {"fill": "mineral wool batt", "outside": [solid("rigid mineral wool board")]}
    }
    found = the_one(RULE, [EMPTY_WALL], change)
    assert found.facts["materials"] == ("mineral wool batt", "rigid mineral wool board")
    assert found.facts["classes"] == ("A1",)


def test_nothing_is_said_as_found_or_where_nothing_insulates():
    assert not findings(RULE, [WALL, EMPTY_WALL])
    assert not findings(RULE, [WALL], {"wall of studs": {"outside": [solid("plywood")]}})
