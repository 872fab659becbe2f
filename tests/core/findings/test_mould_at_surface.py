"""Surface factors by hand, what they need by ISO 13788 as checked in tests/published."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.mould_at_surface import RULE, surface_factor
from tests.core.findings.cases import GYPSUM, case_of, findings, the_one
from tests.core.findings.walls import OPEN_BOARD, PLAIN, ZONES, climate, wall
from tests.recipes.houses import BASEMENT_FLOOR, BASEMENT_WALL, WALL, bays, part, solid


def test_the_factor_of_a_plain_wall_by_hand():
    # 100 mm of 0.1 W/(m K) is 1.0; with 0.25 inside and 0.04 outside f = 1 - 0.25/1.29
    own = {"block": {"conductivity": "0.1 W/(m*K)", "vapour_resistance_factor": 5}}
    case = case_of([wall([solid("block", "100 mm")])], materials=own)
    assert surface_factor(case, case.parts[0]) == pytest.approx(1.0 - 0.25 / 1.29)


def test_the_framing_counts_where_it_is_colder():
    # softwood 89 mm of 0.13: 0.6838; gypsum 0.0127/0.16, board 0.0127/0.13
    case = case_of([wall([GYPSUM, bays("mineral wool batt"), solid("plywood")])])
    total = 0.25 + 0.0127 / 0.16 + 0.0889 / 0.13 + 0.0127 / 0.13 + 0.04
    assert surface_factor(case, case.parts[0]) == pytest.approx(1.0 - 0.25 / total)


def test_insulated_walls_are_warm():
    for zone in ZONES.values():
        assert the_one(RULE, [wall(OPEN_BOARD)], climate=climate(zone)).outcome == "warm"


def test_a_bare_wall_in_the_cold_gets_mouldy():
    found = the_one(RULE, [wall([solid("concrete", "6 in")])], climate=climate(ZONES["6A"]))
    assert (found.outcome, found.severity) == ("cold", Severity.MEND)
    # what it asks for has the factor that is needed
    factor = 1.0 - 0.25 / found.facts["resistance"].value
    assert factor == pytest.approx(found.measured.limit.value, abs=1e-3)


def test_framing_that_is_too_cold_is_told_apart():
    # 2x4 studs with batts and no board: the framing has R-5, the fill R-15
    layers = [GYPSUM, bays("mineral wool batt"), solid("vinyl siding", "1 mm")]
    humid = {"humidity_class": 5}
    found = the_one(RULE, [wall(layers)], climate=climate(ZONES["6A"]), indoor_humidity=humid)
    assert found.outcome == "cold over the framing"
    assert found.facts["resistance"].value > 0.0889 / 0.13


def test_a_single_pane_sweats_and_a_good_one_does_not():
    def window(u_value):
        pane = wall([], "window") | {"kind": "window", "u_value": u_value, "shgc": 0.5}
        return findings(RULE, [wall(OPEN_BOARD), pane], climate=climate(ZONES["6A"]))

    assert window("1.04 Btu/(hour*ft^2*delta_degF)")["window sweats"].components == ("window",)
    assert set(window("0.30 Btu/(hour*ft^2*delta_degF)")) == {"warm"}


def test_a_bare_wall_below_grade_is_held_against_the_ground():
    parts = [wall(PLAIN), BASEMENT_WALL, BASEMENT_FLOOR]
    case = case_of(
        parts,
        does={"inside": ["basement"]},
        climate=climate(ZONES["6A"]),
        indoor_humidity={"humidity_class": 5},
    )
    found = {name: each for each in RULE.findings(case) for name in each.components}
    assert found["basement wall"].outcome == "cold, below grade"
    assert found["basement wall"].severity is Severity.WATCH
    assert set(found) == {"wall", "basement wall", "basement floor"}


def test_no_month_of_the_far_south_is_cold():
    assert the_one(RULE, [wall(PLAIN)], climate=climate(ZONES["1A"])).outcome == "warm"


def test_a_door_has_words_of_its_own():
    door = part("door", "door", ("indoors", "outdoors"), []) | {"u_value": "6 W/(m^2*K)"}
    cold = findings(RULE, [WALL, door], climate=climate(ZONES["7"]))
    assert cold["door sweats"].components == ("door",)
