"""Assemblies whose verdict every building scientist knows, and where the judgement stops.

The algorithm itself is held to computed cases in tests/published/test_moisture.py. What is expected
here is expert knowledge: an exterior board that lets vapour through keeps a wall dry in the cold; a
foil outside of a cold wall without any control inside soaks it; the same wall in the warm South
stays dry.
"""

import json

import pytest

from server.core.assembly import SolidLayer
from server.core.findings.base import Severity
from server.core.findings.interstitial import RULE, most_water, picture_of
from server.core.materials import Material
from tests.conftest import SMALL_HOUSE
from tests.core.findings.cases import GYPSUM, case_of, findings, the_one
from tests.core.findings.walls import (
    BATT,
    FILM,
    FOIL,
    FOIL_OUTSIDE,
    GAP,
    OPEN_BOARD,
    PLAIN,
    STRAND,
    ZONES,
    climate,
    roof,
    wall,
)
from tests.recipes.houses import BRICK, FELT, SHINGLES, SIDING, bays, part, solid


def verdict(layers, zone, **keys):
    return the_one(RULE, [wall(layers)], climate=climate(ZONES[zone]), **keys)


@pytest.mark.parametrize("zone", ["1A", "2A", "3A", "4A", "4C", "5A", "6A", "7"])
def test_board_outside_that_lets_vapour_through_keeps_a_wall_dry(zone):
    assert verdict(OPEN_BOARD, zone).outcome == "dry"


@pytest.mark.parametrize("zone", ["6A", "7"])
def test_foil_outside_of_a_cold_wall_is_a_stop(zone):
    found = verdict(FOIL_OUTSIDE, zone)
    assert found.outcome == "soaks behind a closed skin"
    assert found.severity is Severity.STOP
    assert found.measured.figure.value > 1.0  # kg/m2, DIN 4108-3 allows no more anywhere (memory)


@pytest.mark.parametrize("zone", ["1A", "2A"])
def test_the_same_wall_stays_dry_in_the_warm_south(zone):
    assert verdict(FOIL_OUTSIDE, zone).outcome == "dry"


def test_a_film_inside_keeps_the_cold_wall_dry_in_winter():
    # R-19 2x6 in zone 6 without and with polyethylene: the classic pair
    bare = [GYPSUM, bays("glass fibre batt", "5 1/2 in"), STRAND, SIDING]
    assert verdict(bare, "6A").outcome == "dries, too much"
    assert verdict([bare[0], FILM, *bare[1:]], "6A").outcome == "dry"


def test_a_house_without_enough_fresh_air_is_more_humid():
    # class 3 of ISO 13788 in place of 2: half as much again of the excess, 810 against 540 Pa
    aired = verdict(PLAIN, "6A")
    close = verdict(PLAIN, "6A", air={"ach50": 1.0})
    assert close.measured.figure.value > 1.5 * aired.measured.figure.value


def test_paint_inside_slows_what_comes():
    water = {}
    for paint in ("none", "latex", "oil", "vapour retarder"):
        found = verdict(PLAIN, "6A", seen={"inside_paint": paint})
        water[paint] = 0.0 if found.measured is None else found.measured.figure.value
    assert water["none"] > water["latex"] > water["oil"] > water["vapour retarder"]
    unsaid = verdict(PLAIN, "6A")
    assert unsaid.measured.figure.value == water["latex"]


BATTS = bays("glass fibre batt", "5 1/2 in")


@pytest.mark.parametrize(
    ("outside", "outcome"),
    # foil lets next to nothing out again, boards of wood some
    [([STRAND, FOIL, SIDING], "stays wet, closed outside"), ([STRAND, SIDING], "stays wet")],
)
def test_what_stays_after_a_year_is_told(outside, outcome):
    air = {"ach50": 1.0}
    found = verdict([GYPSUM, BATTS, *outside], "7", air=air, seen={"inside_paint": "none"})
    assert found.outcome == outcome
    assert found.severity is Severity.STOP
    assert found.measured.figure.value > 0.05


def test_a_little_that_stays_is_no_stop():
    found = verdict([GYPSUM, FILM, BATTS, STRAND, FOIL, SIDING], "7", air={"ach50": 1.0})
    assert found.outcome == "gains a little, closed outside"
    assert found.severity is Severity.MEND
    foam = solid("expanded polystyrene", "1 3/8 in")
    wettest = {"indoor_humidity": {"humidity_class": 5}, "seen": {"inside_paint": "none"}}
    deep = bays("glass fibre batt", "9 1/4 in")
    found = verdict([GYPSUM, deep, foam, SIDING], "6A", **wettest)
    assert found.outcome == "gains a little"
    assert found.severity is Severity.MEND


def test_a_film_too_thin_to_run_that_dries_is_dry():
    found = verdict([GYPSUM, FILM, BATTS, STRAND, FOIL, SIDING], "6A")
    assert found.outcome == "dry"
    assert 0.0 < max(found.picture.water) < 0.025


def test_a_cooled_house_sweats_on_the_film_inside():
    # polyethylene inside, a wall open outside, 68 degF in Houston: the well-known summer failure
    layers = [GYPSUM, FILM, bays("glass fibre batt", "3 1/2 in"), SIDING]
    cool = {
        "set_points": {"heating": "66 degF", "cooling": "68 degF"},
        "cooling": {"fuel": "electricity", "efficiency": 3},
    }
    assert verdict(layers, "2A", **cool).outcome.startswith("sweats in summer")
    assert verdict(layers[:1] + layers[2:], "2A", **cool).outcome == "dry"


COOLING = {"fuel": "electricity", "efficiency": 3.4}
CRAWLSPACE = [
    part(
        "crawl wall",
        "basement wall",
        ("crawlspace", "ground"),
        [BRICK],
        depth_below_grade="1 ft",
        exposed_perimeter="100 ft",
    ),
    part(
        "crawl ground",
        "basement floor",
        ("crawlspace", "ground"),
        [solid("sand or gravel soil", "3 in")],
        depth_below_grade="1 ft",
        exposed_perimeter="100 ft",
    ),
]


def over_a_crawlspace(layers, cooled_to, heated_to="64 degF"):
    floor = part("floor", "floor", ("indoors", "crawlspace"), layers)
    points = {"heating": heated_to, "cooling": cooled_to}
    keys = {"climate": climate(ZONES["1A"]), "cooling": COOLING, "set_points": points}
    found = RULE.findings(case_of([floor, *CRAWLSPACE], **keys))
    return next(each for each in found if each.components == ("floor",))


def test_in_summer_the_cold_inner_layer_takes_the_water():
    """Tiles of vinyl over plywood in Miami: 1/2 in of 500 kg/m3 may take up 3 %, 0.19 kg/m2."""
    layers = [
        solid("vinyl flooring", "3 mm"),
        solid("plywood", "1/2 in"),
        bays("mineral wool batt", "5 1/2 in"),
    ]
    found = over_a_crawlspace(layers, "71 degF", heated_to="66 degF")
    assert (found.outcome, found.severity) == ("sweats in summer, too much", Severity.MEND)
    assert found.facts["where"] == "plywood"
    assert found.measured.limit.value == pytest.approx(0.03 * 500.0 * 0.0127, abs=1e-3)


def test_what_stays_from_summer_is_not_mended_by_a_film_inside():
    layers = [GYPSUM, FILM, BATT, solid("gypsum sheathing"), GAP, SIDING]
    found = over_a_crawlspace(layers, "66 degF")
    assert (found.outcome, found.severity) == ("stays wet from summer", Severity.STOP)


def test_each_layer_is_held_against_its_own_limit():
    """Two sheets of plywood that get wet: together more than one of them may take up, 0.19."""
    layers = [
        GYPSUM,
        bays("dense-pack cellulose", "5 in"),
        solid("plywood"),
        solid("wood-fibre insulation board", "2 in"),
        solid("plywood"),
        FELT,
        SHINGLES,
    ]
    found = the_one(
        RULE, [roof(layers)], climate=climate(ZONES["5A"]), seen={"inside_paint": "none"}
    )
    assert (found.outcome, found.severity) == ("dries", Severity.WATCH)
    assert found.facts["where"] == "plywood (5)"
    limit = 0.03 * 500.0 * 0.0127
    assert found.measured.limit.value == pytest.approx(limit, abs=0.001)
    assert found.measured.figure.value < limit < max(found.picture.water)


def test_a_ventilated_gap_takes_the_vapour_away():
    tight = [GYPSUM, bays("mineral wool batt"), STRAND, solid("vinyl flooring", "2 mm")]
    assert verdict(tight, "6A").severity is Severity.STOP
    vented = [*tight[:3], GAP, tight[3]]
    assert verdict(vented, "6A").severity in (Severity.WATCH, Severity.MEND)


@pytest.mark.parametrize(
    ("name", "group", "density", "thickness", "expected"),
    [
        # DIN 4108-3 (memory): 5 % of wood, 3 % of panels by mass, 0.5 kg/m2 beside the rest
        ("softwood board sheathing", "sheathing", 500.0, 0.019, 0.475),
        ("plywood", "sheathing", 500.0, 0.0127, 0.1905),
        ("oriented strand board", "sheathing", 650.0, 0.0111, 0.21645),
        ("gypsum sheathing", "sheathing", 800.0, 0.0127, 0.5),
        ("modern fired brick", "masonry-new", 1920.0, 0.09, 0.5),
        ("softwood", "structure", 500.0, 0.2, 1.0),  # nowhere more than 1 kg/m2
    ],
)
def test_how_much_a_layer_may_take_up(name, group, density, thickness, expected):
    layer = SolidLayer(Material(name, 0.13, density, group=group), thickness)
    assert most_water(layer) == pytest.approx(expected)


def test_what_is_not_known_is_open():
    without = json.loads(SMALL_HOUSE.read_text())["climate"]
    del without["humidity_ratio"]
    assert the_one(RULE, [wall(PLAIN)], climate=without).outcome == "humidity not known"
    own = {"own board": {"conductivity": "0.1 W/(m*K)"}}
    unknown = [GYPSUM, bays("mineral wool batt"), solid("own board")]
    found = the_one(RULE, [wall(unknown)], materials=own)
    assert (found.outcome, found.severity) == ("vapour not known", Severity.OPEN)
    assert found.facts["layers"] == ("own board",)
    only_u = wall([]) | {"u_value": "1 W/(m^2*K)"}
    assert the_one(RULE, [only_u]).outcome == "layers not known"


def test_openings_and_parts_between_rooms_are_not_judged():
    window = wall([], "window") | {"kind": "window", "u_value": "2 W/(m^2*K)", "shgc": 0.5}
    inner = wall(PLAIN, "partition") | {"kind": "partition", "to": "indoors"}
    assert set(findings(RULE, [wall(OPEN_BOARD), window, inner])) == {"dry"}
    assert the_one(RULE, [wall(OPEN_BOARD), window, inner]).components == ("wall",)


def test_its_picture_holds_pressure_under_saturation_and_the_water_by_month():
    case = case_of([wall(FOIL_OUTSIDE)], climate=climate(ZONES["6A"]))
    picture = picture_of(case, 0)
    pairs = zip(picture.course.pressure, picture.course.saturation, strict=True)
    assert all(pressure <= saturation + 1e-6 for pressure, saturation in pairs)
    assert picture.layers == (
        "paint",
        "gypsum board",
        "mineral wool batt",
        "oriented strand board",
        "aluminium foil facing",
        "old siding",
    )
    assert len(picture.water) == 12
    found = next(iter(RULE.findings(case)))
    assert found.facts["where"] == "oriented strand board"
    # some of it lies behind the foil
    assert max(picture.water) > found.measured.figure.value > 0.8 * max(picture.water)
