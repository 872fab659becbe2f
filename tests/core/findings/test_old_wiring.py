"""Knob-and-tube wiring, which must not be buried. National Electrical Code 394.12 (memory)."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.old_wiring import RULE
from tests.core.findings.cases import CLOSED_CELL, findings, the_one
from tests.recipes.houses import CEILING, WALL, solid

KNOBS = {"wiring": "knob-and-tube"}
FILLED = {"wall of studs": {"fill": "dense-pack cellulose"}}
BOARD = {"wall of studs": {"outside": [solid("rigid mineral wool board", "2 in")]}}


@pytest.mark.parametrize(
    ("answer", "change", "outcome", "severity"),
    [
        ("knob-and-tube", None, "found", Severity.WATCH),
        ("knob-and-tube", BOARD, "found", Severity.WATCH),
        ("knob-and-tube", FILLED, "buried", Severity.STOP),
        (None, None, "not looked at", Severity.OPEN),
        (None, BOARD, "not looked at", Severity.OPEN),
        (None, FILLED, "not looked at, bays filled", Severity.OPEN),
        ("modern", None, "modern", Severity.GOOD),
        ("modern", FILLED, "modern", Severity.GOOD),
    ],
)
def test_each_answer_with_and_without_fill(answer, change, outcome, severity):
    found = the_one(RULE, [WALL], change, seen={"wiring": answer})
    assert (found.outcome, found.severity) == (outcome, severity)
    filled = change is FILLED and answer != "modern"
    assert found.components == (("wall of studs",) if filled else ())


@pytest.mark.parametrize(
    "change",
    [
        {"fill_thickness": "14 in"},
        {"outside": [solid("mineral wool loose fill", "10 in")]},
        {"outside": [solid("glass fibre batt", "10 in")]},
        {"outside": [solid(CLOSED_CELL, "4 in")]},
    ],
)
def test_more_fill_on_an_attic_floor_buries_it_too(change):
    found = the_one(RULE, [WALL, CEILING], {"upper ceiling": change}, seen=KNOBS)
    assert (found.outcome, found.components) == ("buried", ("upper ceiling",))


# Installed until about 1950 (memory).
@pytest.mark.parametrize("change", [None, FILLED])
def test_a_younger_house_is_not_asked(change):
    assert not findings(RULE, [WALL], change, year_built=1951)
    assert findings(RULE, [WALL], change, year_built=1950)
    assert findings(RULE, [WALL], change, year_built=None)


def test_what_was_found_in_a_younger_house_is_told():
    assert the_one(RULE, [WALL], FILLED, year_built=1960, seen=KNOBS).outcome == "buried"


NOTED = WALL | {"condition": ["knob-and-tube wiring seen"]}


@pytest.mark.parametrize(
    ("change", "outcome", "severity"),
    [
        (None, "contradicted", Severity.OPEN),
        (BOARD, "contradicted", Severity.OPEN),
        (FILLED, "contradicted, bays filled", Severity.MEND),
    ],
)
def test_a_note_of_old_wires_contradicts_modern(change, outcome, severity):
    found = the_one(RULE, [NOTED, CEILING], change, year_built=1962, seen={"wiring": "modern"})
    assert (found.outcome, found.severity) == (outcome, severity)
    assert found.components == ("wall of studs",)


@pytest.mark.parametrize("change", [None, FILLED])
@pytest.mark.parametrize("wall", [WALL, NOTED])
def test_old_wires_that_are_replaced_or_dead_are_answered(wall, change):
    found = the_one(RULE, [wall], change, seen={"wiring": "replaced or dead"})
    assert (found.outcome, found.severity) == ("replaced", Severity.GOOD)


def test_a_note_that_denies_old_wires_contradicts_nothing():
    wall = WALL | {"condition": ["no knob-and-tube wiring"]}
    assert the_one(RULE, [wall], FILLED, seen={"wiring": "modern"}).outcome == "modern"
