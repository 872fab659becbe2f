"""U beside what the energy code asks. IECC 2021 Table R402.1.2, IECC 2018 R402.1.4 (memory).

Published label constructions of walls, whole U: R-13 between studs 0.0844, R-20 and R-5 over it
0.0446 (all in Btu/(h ft2 degF)). Here a wall is one resistance between the still air of R-0.68
inside and the wind of R-0.17 outside (ASHRAE): 1 / (0.85 + 11.0) = 0.0844 and
1 / (0.85 + 21.57) = 0.0446.
"""

import pytest

from server.core.findings.base import Severity
from server.core.findings.energy_code_parts import RULE
from tests.core.findings.cases import PARTITION, findings, the_one
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    BOARDS,
    BRICK,
    CEILING,
    FLOOR,
    PLASTER,
    ROOF,
    SLAB,
    WALL,
    part,
    solid,
)

ONE = 5.678263  # W/(m2 K) in one Btu/(h ft2 degF)
SIDES = ("indoors", "outdoors")
OLD = {"resistance": "R-3", "name": "old"}
FRONT = part("front", "wall", SIDES, [OLD])
ASHRAE = {"films": "ASHRAE winter"}
OUTER = {"outside": [solid("expanded polystyrene", "1 in")]}
BOARD = {"inside": [solid("expanded polystyrene", "1 in")]}


def opening(kind, u_value="0.9", shgc=0.6):
    base = part("light", kind, SIDES, [])
    return base | {"u_value": f"{u_value} BTU/(h*ft^2*degF)", "shgc": shgc}


def of_resistance(label):
    return {"front": {"remove": ["old"], "inside": [{"resistance": label}]}}


R_13, R_20_5 = of_resistance("R-11"), of_resistance("R-21.57")


@pytest.mark.parametrize(
    ("change", "u_value", "zone", "edition", "limit", "outcome"),
    [
        (R_13, 0.0844, "4A", "IECC 2021", 0.045, "misses"),
        (R_20_5, 0.0446, "4A", "IECC 2021", 0.045, "meets"),
        (R_20_5, 0.0446, "7", "IECC 2021", 0.045, "meets"),
        (R_13, 0.0844, "3A", "IECC 2021", 0.060, "misses"),
        (of_resistance("R-15.9"), 0.0597, "3A", "IECC 2021", 0.060, "meets"),
        (of_resistance("R-15.9"), 0.0597, "4A", "IECC 2021", 0.045, "misses"),
        (of_resistance("R-15.9"), 0.0597, "5A", "IECC 2018", 0.060, "meets"),
        (of_resistance("R-15.9"), 0.0597, "6A", "IECC 2018", 0.045, "misses"),
    ],
)
def test_frame_walls(change, u_value, zone, edition, limit, outcome):
    code = {"energy_code": {"edition": edition}}
    found = the_one(RULE, [FRONT], change, zone=zone, **ASHRAE, **code)
    assert found.outcome == outcome
    assert found.severity is (Severity.GOOD if outcome == "meets" else Severity.WATCH)
    assert found.components == ("front",)
    assert found.facts == {"edition": edition, "zone": zone, "sort": "frame wall"}
    assert found.measured.figure.value == pytest.approx(u_value * ONE, abs=0.0005)
    assert found.measured.limit.value == pytest.approx(limit * ONE, rel=1e-4)


@pytest.mark.parametrize(
    ("parts", "change", "sort", "limit"),
    [
        ([part("it", "wall", SIDES, [PLASTER, BRICK])], OUTER, "mass wall", 0.098),
        # more than half of the insulation inside: footnote of Table R402.1.2 (memory)
        (
            [part("it", "wall", SIDES, [PLASTER, BRICK])],
            BOARD,
            "mass wall insulated inside",
            0.087,
        ),
        ([CEILING | {"name": "it"}, ROOF], {"fill_thickness": "14 in"}, "ceiling", 0.024),
        ([part("it", "roof", SIDES, ROOF["layers"])], BOARD, "ceiling", 0.024),
        ([part("it", "floor", SIDES, [BOARDS])], BOARD, "floor", 0.047),
    ],
)
def test_sorts_of_parts_in_zone_4(parts, change, sort, limit):
    found = the_one(RULE, [WALL, *parts], {"it": change})
    assert found.facts["sort"] == sort
    assert found.measured.limit.value == pytest.approx(limit * ONE, rel=1e-4)


def test_basement_walls():
    parts = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR]
    found = the_one(RULE, parts, {"basement wall": BOARD}, does={"inside": ["basement"]})
    assert found.facts["sort"] == "basement wall"
    assert found.measured.limit.value == pytest.approx(0.059 * ONE, rel=1e-4)


def test_crawlspace_walls_have_only_the_ground_between_them():
    ground = {"depth_below_grade": "2 ft", "exposed_perimeter": "100 ft"}
    stem = part("stem wall", "basement wall", ("crawlspace", "ground"), [], **ground)
    floor = part("floor", "floor", ("indoors", "crawlspace"), [])
    parts = [each | {"u_value": "0.5 BTU/(h*ft^2*degF)"} for each in (stem, floor)]
    found = the_one(
        RULE,
        parts,
        {"stem wall": "new"},
        does={"inside": ["crawlspace"]},
        assemblies={"new": {"u_value": "0.06 BTU/(h*ft^2*degF)"}},
    )
    assert (found.outcome, found.facts["sort"]) == ("meets", "crawlspace wall")
    assert found.measured.limit.value == pytest.approx(0.065 * ONE, rel=1e-4)


@pytest.mark.parametrize(
    ("kind", "u_value", "limit", "outcome"),
    [
        ("window", "0.30", 0.30, "meets"),
        ("window", "0.31", 0.30, "misses"),
        ("skylight", "0.55", 0.55, "meets"),
        ("skylight", "0.56", 0.55, "misses"),
    ],
)
def test_openings(kind, u_value, limit, outcome):
    does = {"openings": {"light": {"u_value": f"{u_value} BTU/(h*ft^2*degF)", "shgc": 0.3}}}
    found = the_one(RULE, [WALL, opening(kind)], does=does)
    assert (found.outcome, found.facts["sort"]) == (outcome, kind)
    assert found.measured.limit.value == pytest.approx(limit * ONE, rel=1e-4)


# SHGC at most 0.25 in zone 3, 0.40 in zones 4 and 5, no limit from zone 6 on.
@pytest.mark.parametrize(
    ("zone", "gain", "limit"),
    [
        ("3A", 0.25, None),
        ("3A", 0.26, 0.25),
        ("4A", 0.40, None),
        ("4A", 0.41, 0.40),
        ("5A", 0.41, 0.40),
        ("6A", 0.6, None),
    ],
)
def test_sun_through_glass(zone, gain, limit):
    does = {"openings": {"light": {"u_value": "0.3 BTU/(h*ft^2*degF)", "shgc": gain}}}
    found = findings(RULE, [WALL, opening("window")], does=does, zone=zone)
    if limit is None:
        assert set(found) == {"meets"}
    else:
        assert set(found) == {"meets", "lets in more sun"}
        assert found["lets in more sun"].severity is Severity.WATCH
        assert found["lets in more sun"].measured.figure.value == gain
        assert found["lets in more sun"].measured.limit.value == limit


def test_new_glass_of_which_only_the_sun_changes():
    does = {"openings": {"light": {"shgc": 0.5}}}
    found = the_one(RULE, [WALL, opening("window")], does=does)
    assert found.outcome == "lets in more sun"
    less = {"openings": {"light": {"shgc": 0.3}}}
    assert not findings(RULE, [WALL, opening("window")], does=less)


def test_limits_of_ones_own():
    code = {"energy_code": {"frame_wall": "0.09 BTU/(h*ft^2*degF)"}}
    assert the_one(RULE, [FRONT], R_13, **ASHRAE, **code).outcome == "meets"


def test_without_a_zone_it_is_open():
    found = the_one(RULE, [FRONT], R_13, zone=None)
    assert (found.outcome, found.severity) == ("zone not known", Severity.OPEN)


def test_what_the_code_asks_nothing_of():
    assert not findings(RULE, [FRONT])
    assert not findings(RULE, [FRONT], zone=None)
    inner = {"partition": {"fill": "mineral wool batt"}}
    assert not findings(RULE, [WALL, PARTITION], inner)
    slab = {"sun-room slab": {"inside": [solid("cork board")]}}
    assert not findings(RULE, [WALL, SLAB], slab)
    roof = {"attic roof": {"inside": [solid("cork board")]}}  # of an attic that stays outside
    assert not findings(RULE, [WALL, CEILING, ROOF], roof)
