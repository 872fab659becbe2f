"""Permeances by hand: 1 perm is an s_d of 3.5 m, by 57.2 ng/(s m2 Pa) and still air of 2e-10."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.closed_both_sides import RULE
from tests.core.findings.cases import GYPSUM, findings, the_one
from tests.core.findings.walls import BATT, FILM, FOIL, FOIL_FOAM, GAP, KRAFT, STRAND, wall
from tests.recipes.houses import SIDING, bays, solid

OPEN_WALL = [GYPSUM, BATT, STRAND, GAP, SIDING]


@pytest.mark.parametrize(
    ("layers", "outcome", "severity"),
    [
        (OPEN_WALL, "dries both ways", Severity.GOOD),
        ([GYPSUM, FILM, BATT, STRAND, GAP, SIDING], "dries outward", Severity.GOOD),
        ([GYPSUM, BATT, STRAND, FOIL_FOAM, GAP, SIDING], "dries inward", Severity.GOOD),
        ([GYPSUM, FILM, BATT, STRAND, FOIL, SIDING], "closed on both sides", Severity.MEND),
        (
            # kraft on one side, three layers of about 1 perm together on the other
            [GYPSUM, KRAFT, BATT, solid("plywood", "3/4 in"), SIDING],
            "slow on both sides",
            Severity.WATCH,
        ),
    ],
)
def test_to_which_side_it_dries(layers, outcome, severity):
    found = the_one(RULE, [wall(layers)])
    assert (found.outcome, found.severity) == (outcome, severity)


def test_permeance_by_hand():
    # polyethylene: mu 333 000 times 0.15 mm is 49.95 m; gypsum 10 times 12.7 mm; latex paint 0.35 m
    found = the_one(RULE, [wall([GYPSUM, FILM, BATT, STRAND, GAP, SIDING])])
    diffusion = 333_000 * 0.15e-3 + 10 * 0.0127 + 0.35
    assert found.facts["inward"].value == pytest.approx(2e-10 / diffusion, rel=0.01)


def test_the_masonry_is_where_a_solid_wall_gets_wet():
    brick = solid("old soft brick", "12 in")
    foam = solid("polyisocyanurate, foil faced, aged", "2 in")
    assert the_one(RULE, [wall([GYPSUM, foam, brick])]).outcome == "dries outward"
    coated = [GYPSUM, foam, brick, solid("vinyl flooring", "2 mm")]
    assert the_one(RULE, [wall(coated)]).outcome == "closed on both sides"


def test_low_permeance_is_known_by_its_figure_whatever_its_name():
    own = {"pretty blue sheet": {"conductivity": "0.3 W/(m*K)", "vapour_resistance_factor": 1e6}}
    sheet = solid("pretty blue sheet", "1 mm")
    layers = [GYPSUM, sheet, BATT, STRAND, sheet, SIDING]
    assert the_one(RULE, [wall(layers)], materials=own).outcome == "closed on both sides"


def test_it_is_silent_of_what_is_not_insulated_and_open_where_a_figure_is_missing():
    assert findings(RULE, [wall([GYPSUM, bays(), STRAND, SIDING])]) == {}
    own = {"own sheet": {"conductivity": "0.3 W/(m*K)"}}
    layers = [GYPSUM, BATT, STRAND, solid("own sheet", "1 mm")]
    assert the_one(RULE, [wall(layers)], materials=own).outcome == "vapour not known"
