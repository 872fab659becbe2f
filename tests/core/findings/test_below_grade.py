"""Insulation inside of walls and floors in the ground.

The verdicts expected are common practice: batts against cold concrete grow mouldy in the North and
not in the warm South, a plastic film inside of them is wrong everywhere, foam against the concrete
is right. One humidity is worked out by hand, by ISO 13370 and psychrolib.
"""

import json
import math

import numpy as np
import psychrolib
import pytest

from server.core.findings.base import Severity
from server.core.findings.below_grade import RULE, ground_of
from server.finding_words.telling import told
from tests.conftest import SMALL_HOUSE
from tests.core.findings.cases import CLOSED_CELL, GYPSUM, case_of, findings, the_one
from tests.core.findings.walls import FILM, KRAFT, OPEN_BOARD, ZONES, climate, wall
from tests.recipes.houses import DEEP, FLOOR, SLAB, bays, part, solid

psychrolib.SetUnitSystem(psychrolib.SI)

CONCRETE = solid("concrete", "8 in")
BATT = bays("glass fibre batt")
AIRED = {"humidity_class": 2}
COOLED = {"fuel": "electricity", "efficiency": 3.0}
FLOOR_BELOW = part("floor below", "basement floor", ("indoors", "ground"), [CONCRETE], **DEEP)


def foam(thickness):
    return solid("expanded polystyrene", thickness)


def below(layers, **keys):
    sides = ("indoors", "ground")
    return part("wall below", "basement wall", sides, layers, **(DEEP | keys))


def said(layers, zone="6A", **keys):
    """All that is said of a wall in the ground of a house that is aired and cooled."""
    keys = {"climate": climate(ZONES[zone]), "indoor_humidity": AIRED, "cooling": COOLED} | keys
    return findings(RULE, [wall(OPEN_BOARD), below(layers), FLOOR_BELOW], **keys)


def outcome(layers, zone="6A", **keys):
    (found,) = said(layers, zone, **keys).values()
    assert found.components == ("wall below",)
    return found


def test_one_humidity_by_hand():
    """Batts in Minneapolis in March: ISO 13370 for wall and ground, psychrolib for the air."""
    layers = [GYPSUM, bays("glass fibre batt", fraction=0.0), CONCRETE]
    parts = [wall(OPEN_BOARD), below(layers), FLOOR_BELOW]
    case = case_of(parts, climate=climate(ZONES["6A"]), indoor_humidity=AIRED, cooling=COOLED)
    lining, concrete = 0.0127 / 0.16 + 0.0889 / 0.04, 0.2032 / 2.0
    soil, depth, length = 2.0, 1.8288, 200 * 0.3048**2 / 1.8288
    d_wall = soil * (0.13 + lining + concrete + 0.04)
    d_floor = min(d_wall, 0.3 + soil * (0.17 + concrete + 0.04))
    u_value = 2 * soil / (math.pi * depth) * math.log(depth / d_wall + 1)
    u_value *= 1 + 0.5 * d_floor / (d_floor + depth)
    reach = math.sqrt(3.15e7 * soil / (math.pi * 2e6))
    swing = 0.37 * length * soil * 2 * (1 - math.exp(-depth / reach)) * math.log(reach / d_wall + 1)
    weather = case.house.climate
    outdoors = np.array(weather.mean_temperature)
    angle = 2 * math.pi * np.arange(1, 13) / 12
    cosine, sine = (outdoors * np.cos(angle)).sum() / 6, (outdoors * np.sin(angle)).sum() / 6
    february = 2 * math.pi * 2 / 12  # a month late
    late = cosine * math.cos(february) + sine * math.sin(february)
    days = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    ground = (outdoors * days).sum() / days.sum() + swing / (u_value * length * depth) * late
    room = (70 - 32) / 1.8
    face = room - (room - ground) * u_value * (0.13 + lining)
    altitude = psychrolib.GetStandardAtmPressure(float(weather.elevation))
    vapour = psychrolib.GetVapPresFromHumRatio(float(weather.humidity_ratio[2]), altitude)
    vapour += 540 * min(1, (20 - outdoors[2]) / 20)  # class 2
    humidity = vapour / psychrolib.GetSatVapPres(face)
    (found,) = RULE.findings(case)
    assert found.facts["month"].value == 2
    assert humidity == pytest.approx(found.measured.figure.value, abs=0.01)
    assert humidity > 0.9


def test_one_part_in_the_ground_feels_the_ground_of_the_balance():
    case = case_of([wall(OPEN_BOARD), SLAB], climate=climate(ZONES["6A"]))
    theirs = [float(each) for each in case.after.ground_temperature]
    assert ground_of(case, case.parts[1]) == pytest.approx(theirs)


@pytest.mark.parametrize(
    ("zone", "humidity_class"),
    [("4A", 3), ("4C", 3), ("5A", 2), ("6A", 2), ("7", 2)],
)
def test_batts_against_cold_concrete_get_mouldy(zone, humidity_class):
    rooms = {"humidity_class": humidity_class}
    found = outcome([GYPSUM, BATT, CONCRETE], zone, indoor_humidity=rooms)
    assert (found.outcome, found.severity) == ("humid", Severity.MEND)
    assert found.measured.limit.value == 0.8  # ISO 13788:2012 5.2 (memory)
    assert found.facts["fill"] == ("glass fibre batt",)


@pytest.mark.parametrize("zone", ["1A", "2A", "3A"])
def test_they_do_not_in_the_warm_south(zone):
    found = outcome([GYPSUM, BATT, CONCRETE], zone)
    assert (found.outcome, found.severity) == ("warm, no foam", Severity.WATCH)
    assert found.measured.figure.value <= 0.8


def test_a_film_inside_of_batts_is_wrong_everywhere():
    found = outcome([GYPSUM, FILM, BATT, CONCRETE])
    assert (found.outcome, found.severity) == ("humid behind a film", Severity.MEND)
    found = outcome([GYPSUM, FILM, BATT, CONCRETE], "2A")
    assert (found.outcome, found.severity) == ("film", Severity.MEND)
    assert found.facts["film"] == ("polyethylene film",)
    assert found.measured is None


def test_a_class_ii_facing_goes_by_the_humidity():
    assert outcome([GYPSUM, KRAFT, BATT, CONCRETE], "2A").outcome == "warm, no foam"
    assert outcome([GYPSUM, KRAFT, BATT, CONCRETE], "6A").outcome == "humid"


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize(
    "lining",
    [
        [GYPSUM, foam("2 in")],
        [GYPSUM, bays(), foam("2 in")],
        [GYPSUM, bays(CLOSED_CELL)],
        [GYPSUM, solid("cellular glass", "2 in")],
    ],
)
def test_foam_against_the_concrete_is_good(lining, zone):
    found = outcome([*lining, CONCRETE], zone)
    assert (found.outcome, found.severity) == ("foam", Severity.GOOD)


def test_batts_inside_of_foam_go_by_how_thick_it_is():
    assert outcome([GYPSUM, BATT, foam("2 in"), CONCRETE]).outcome == "warm"
    found = outcome([GYPSUM, BATT, foam("1/2 in"), CONCRETE])
    assert (found.outcome, found.severity) == ("humid inside of foam", Severity.MEND)
    found = outcome([GYPSUM, FILM, BATT, foam("3 in"), CONCRETE])
    assert (found.outcome, found.severity) == ("film, foam outside", Severity.WATCH)


@pytest.mark.parametrize("zone", ["4A", "4C", "5A", "6A", "7"])
@pytest.mark.parametrize("cooled", [True, False])
@pytest.mark.parametrize("laid", [None, "1/2 in"])
def test_what_it_asks_for_is_enough(zone, cooled, laid):
    air = {} if cooled else {"cooling": None}

    def built(thickness):
        board = [foam(thickness)] if thickness else []
        return outcome([GYPSUM, BATT, *board, CONCRETE], zone, **air)

    found = built(laid)
    if not found.outcome.startswith("warm"):
        found = built(f"{found.facts['board'].value} m")
    assert found.outcome.startswith("warm")


def test_foam_in_two_layers_counts_as_both_together():
    halves = outcome([GYPSUM, BATT, foam("1/2 in"), foam("1/2 in"), CONCRETE], "7")
    whole = outcome([GYPSUM, BATT, foam("1 in"), CONCRETE], "7")
    assert halves.outcome == whole.outcome == "humid inside of foam"
    assert halves.facts["board"] == whole.facts["board"]


def test_foam_between_the_studs_outside_of_batts_is_foam():
    foamed = bays(CLOSED_CELL, "1 1/2 in")
    found = outcome([GYPSUM, BATT, foamed, CONCRETE])
    behind_concrete = outcome([GYPSUM, BATT, CONCRETE])
    assert found.outcome != "humid"
    assert found.measured.figure.value < behind_concrete.measured.figure.value


@pytest.mark.parametrize(
    "fill",
    [
        [bays("open-cell sprayed foam")],  # vapour passes
        [solid("rigid mineral wool board", "2 in")],
        [BATT, {"air_layer": "unventilated", "thickness": "1 in"}],
    ],
)
def test_what_lets_air_or_vapour_through_is_judged(fill):
    assert outcome([GYPSUM, *fill, CONCRETE]).outcome == "humid"


def test_batts_between_sleepers_on_a_slab():
    sleepers = [solid("plywood"), BATT, solid("concrete", "4 in")]
    slab = SLAB | {"layers": sleepers}
    keys = {"climate": climate(ZONES["6A"]), "indoor_humidity": AIRED}
    found = the_one(RULE, [wall(OPEN_BOARD), slab], **keys)
    assert (found.outcome, found.components) == ("humid", ("sun-room slab",))
    under = {"layers": [*sleepers, solid("extruded polystyrene, modern", "6 in")]}
    humid = the_one(RULE, [wall(OPEN_BOARD), SLAB | under], **keys)
    assert humid.measured.figure.value < found.measured.figure.value


@pytest.mark.parametrize(
    "layers",
    [
        [CONCRETE],
        [GYPSUM, CONCRETE],
        [GYPSUM, bays(), CONCRETE],
        [FILM, CONCRETE],
        [CONCRETE, foam("2 in")],  # outside
        [CONCRETE, solid("rigid mineral wool board", "2 in")],
        [{"resistance": "R-1", "name": "old finish"}, CONCRETE],
    ],
)
def test_it_is_silent_of_what_is_not_insulated_inside(layers):
    assert said(layers) == {}


def test_it_is_silent_of_a_cellar_that_is_not_inside():
    parts = [
        wall(OPEN_BOARD),
        FLOOR,
        below([GYPSUM, BATT, CONCRETE]) | {"from": "basement"},
        FLOOR_BELOW | {"from": "basement"},
    ]
    keys = {"climate": climate(ZONES["6A"])}
    assert findings(RULE, parts, **keys) == {}
    assert "wall below" in the_one(RULE, parts, does={"inside": ["basement"]}, **keys).components


@pytest.mark.parametrize(
    "layers",
    [
        [{"resistance": "R-13"}, CONCRETE],
        [{"resistance": "R-19"}],
    ],
)
def test_layers_known_by_their_r_alone_are_open(layers):
    found = outcome(layers)
    assert (found.outcome, found.severity) == ("layers not known", Severity.OPEN)


def test_a_part_known_by_its_u_alone_is_open_unless_it_must_be_bare():
    def known(u_value):
        parts = [wall(OPEN_BOARD), below([], u_value=u_value), FLOOR_BELOW]
        return findings(RULE, parts, climate=climate(ZONES["6A"]))

    assert set(known("0.3 W/(m^2*K)")) == {"layers not known"}
    assert known("1.5 W/(m^2*K)") == {}


def test_without_humidity_it_is_open_but_for_a_film():
    assert _dry_file([GYPSUM, BATT, CONCRETE]) == {"humidity not known": Severity.OPEN}
    assert _dry_file([GYPSUM, FILM, BATT, CONCRETE]) == {"film": Severity.MEND}
    assert _dry_file([GYPSUM, foam("2 in"), CONCRETE]) == {"foam": Severity.GOOD}


def _dry_file(layers):
    """What is said where the climate tells no humidity."""
    without = json.loads(SMALL_HOUSE.read_text())["climate"]
    del without["humidity_ratio"]
    made = findings(RULE, [wall(OPEN_BOARD), below(layers), FLOOR_BELOW], climate=without)
    return {name: each.severity for name, each in made.items()}


def test_vapour_figures_that_are_missing_are_open():
    own = {
        "own foam": {"conductivity": "0.03 W/(m*K)", "group": "rigid-foam"},
        "own board": {"conductivity": "0.2 W/(m*K)", "group": "board"},
    }
    assert outcome([GYPSUM, solid("own foam"), CONCRETE], materials=own).outcome == (
        "vapour not known"
    )
    inside = [solid("own board"), BATT, CONCRETE]
    assert outcome(inside, "2A", materials=own).outcome == "vapour not known"
    assert outcome(inside, "6A", materials=own).outcome == "humid"


def test_rooms_too_humid_for_any_foam():
    wet = {"relative_humidity": [0.85] * 12}
    found = outcome([GYPSUM, BATT, CONCRETE], indoor_humidity=wet)
    assert (found.outcome, found.severity) == ("humid rooms", Severity.MEND)


def test_the_work_is_judged_as_well_as_what_was_found():
    parts = [wall(OPEN_BOARD), below([CONCRETE]), FLOOR_BELOW]
    change = {"wall below": {"inside": [GYPSUM, FILM, BATT]}}
    found = the_one(RULE, parts, change, climate=climate(ZONES["6A"]))
    assert found.outcome == "humid behind a film"


@pytest.mark.parametrize("system", ["ip", "si"])
def test_every_sentence_has_its_facts(system):
    wet = {"indoor_humidity": {"relative_humidity": [0.85] * 12}}
    every = [
        outcome([GYPSUM, BATT, CONCRETE]),
        outcome([GYPSUM, FILM, BATT, CONCRETE]),
        outcome([GYPSUM, FILM, BATT, CONCRETE], "2A"),
        outcome([GYPSUM, BATT, foam("1/2 in"), CONCRETE]),
        outcome([GYPSUM, FILM, BATT, foam("3 in"), CONCRETE]),
        outcome([GYPSUM, BATT, CONCRETE], **wet),
    ]
    for each in every:
        words = told(each, system)
        assert "{" not in words.text + words.mend
    assert told(every[0], system).figure.endswith("%")
    assert told(every[0], system).limit.replace("\u00a0", " ") == "at most 80 %"
