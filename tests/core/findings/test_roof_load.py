"""Weight on old rafters: density times thickness.

As found: boards 0.01905 m of 500 kg/m3, felt 0.001016 m of 1100, shingles 0.0127 m of 920:
9.525 + 1.118 + 11.684 = 22.33 kg/m2, and rafters that are not described, 2 lb/ft2 (common
practice), 9.76: 32.09 in all. 1 lb/ft2 = 0.45359237 / 0.09290304 = 4.8824 kg/m2.
Limits: 2 1/2 lb/ft2 more is 12.2 (common practice); rafter tables reckon with 10 and 20 lb/ft2 in
all, 48.8 and 97.6 kg/m2 (IRC R802.4, memory).
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.roof_load import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import BOARDS, CEILING, FELT, ROOF, SHINGLES, WALL, bays, part, solid

AS_FOUND = 32.09  # kg/m2
GOOD, WATCH, MEND = Severity.GOOD, Severity.WATCH, Severity.MEND
BOARD = solid("rigid mineral wool board", "4 in")


@pytest.mark.parametrize(
    ("change", "more", "outcome", "severity", "limit"),
    [
        # 0.1016 m x 20 = 2.03
        ({"outside": [solid("expanded polystyrene", "4 in")]}, 2.03, "as before", GOOD, 2.5),
        # 0.1016 m x 128 = 13.00, in all 45.1
        ({"outside": [BOARD]}, 13.00, "heavier, still light", WATCH, 10),
        # 0.0127 m x 2400 = 30.48, in all 62.6
        ({"outside": [solid("slate")]}, 30.48, "heavier", MEND, 10),
        # 1 1/2 in of it: 91.44, in all 123.5, above the 20 lb/ft2 (97.6) where tables end
        ({"outside": [solid("slate", "1 1/2 in")]}, 91.44, "heavy", MEND, 20),
        # 30.48 - 11.68 = 18.80, in all 50.9
        ({"remove": ["old roofing"], "outside": [solid("slate")]}, 18.80, "heavier", MEND, 10),
        # another layer of shingles: 11.68, 2.4 lb/ft2
        ({"outside": [solid("asphalt shingle")]}, 11.68, "as before", GOOD, 2.5),
        # roofing off: 11.68 less
        ({"remove": ["old roofing"]}, -11.68, "as before", GOOD, 2.5),
    ],
)
def test_weight_by_density_and_thickness(change, more, outcome, severity, limit):
    found = the_one(RULE, [WALL, ROOF], {"attic roof": change})
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.components == ("attic roof",)
    figure = more if outcome == "as before" else AS_FOUND + more
    assert found.measured.figure.value == pytest.approx(figure, abs=0.02)
    assert found.measured.limit.value == pytest.approx(limit * 4.8824, abs=0.01)
    assert not found.measured.at_least


def test_fill_weighs_between_the_rafters_only():
    """0.1397 m of 56 kg/m3 on three quarters of the area: 5.87 kg/m2."""
    framed = part(
        "attic roof",
        "roof",
        ("attic", "outdoors"),
        [bays(depth="5 1/2 in"), BOARDS, FELT, SHINGLES],
    )
    found = the_one(RULE, [WALL, framed], {"attic roof": {"fill": "dense-pack cellulose"}})
    assert found.outcome == "as before"
    assert found.measured.figure.value == pytest.approx(5.87, abs=0.02)


def test_a_layer_without_density_leaves_it_open():
    mine = {"my board": {"conductivity": "0.04 W/(m*K)"}}
    change = {"attic roof": {"outside": [solid("my board", "4 in")]}}
    found = the_one(RULE, [WALL, ROOF], change, materials=mine)
    assert (found.outcome, found.severity) == ("weight not known", Severity.OPEN)


def test_nothing_is_said_of_roofs_left_alone_and_of_other_parts():
    assert not findings(RULE, [WALL, ROOF, CEILING])
    change = {
        "wall of studs": {"outside": [solid("slate")]},
        "upper ceiling": {"fill_thickness": "14 in"},
    }
    assert not findings(RULE, [WALL, ROOF, CEILING], change)


def test_what_stays_may_be_unknown_while_little_is_added():
    known = part("attic roof", "roof", ("attic", "outdoors"), [BOARDS, {"resistance": "R-1"}])
    shingles = {"attic roof": {"outside": [solid("asphalt shingle")]}}
    assert the_one(RULE, [WALL, known], shingles).outcome == "as before"
    board = {"attic roof": {"outside": [BOARD]}}
    assert the_one(RULE, [WALL, known], board).outcome == "weight not known"


def test_rafters_weigh_too():
    """0.15 of 0.1397 m of 500 kg/m3 is 10.48; boards, felt, shingles 22.33; board 13.00."""
    rafters = bays(depth="5 1/2 in")
    rafters["framed"]["fraction"] = 0.15
    roof = part("attic roof", "roof", ("attic", "outdoors"), [rafters, BOARDS, FELT, SHINGLES])
    found = the_one(RULE, [WALL, roof], {"attic roof": {"outside": [BOARD]}})
    assert found.measured.figure.value == pytest.approx(45.81, abs=0.02)


def test_a_roof_known_by_its_u_alone_has_no_known_weight():
    bare = part("old roof", "roof", ("attic", "outdoors"), [], u_value="0.5 Btu/(h*ft^2*degF)")
    found = findings(RULE, [WALL, ROOF, bare], {"old roof": "attic roof as found"})
    assert set(found) == {"weight not known"}
