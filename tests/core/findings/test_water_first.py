"""Water at the house, before anything is closed up."""

import pytest

from server.core.findings.base import Severity
from server.core.findings.water_first import RULE
from tests.core.findings.cases import findings, the_one
from tests.recipes.houses import (
    BASEMENT_FLOOR,
    BASEMENT_WALL,
    BRICK,
    FLOOR,
    SIDING,
    SLAB,
    WALL,
    part,
    solid,
)

SOUND = {"gutters": "sound", "ground_slope": "away from the house", "flashing": "sound"}
CELLAR = [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR]


@pytest.mark.parametrize(
    ("wetness", "outcome", "severity"),
    [("wet", "wet part", Severity.STOP), ("damp", "damp part", Severity.MEND)],
)
def test_a_wet_part_is_named(wetness, outcome, severity):
    found = findings(RULE, [WALL | {"wetness": wetness}, SLAB], seen=SOUND)
    assert set(found) == {outcome, "kept off"}
    assert found[outcome].severity is severity
    assert found[outcome].components == ("wall of studs",)


def test_a_dry_part_is_not_named():
    assert set(findings(RULE, [WALL | {"wetness": "dry"}], seen=SOUND)) == {"kept off"}


@pytest.mark.parametrize(
    "words",
    [
        "Damp at the sill",
        "rotten studs",
        "leaks at the chimney",
        "tide marks, salts",
        "mouldy corner",
        "black mold behind the bed",
        "stained below the window",
    ],
)
def test_words_of_the_survey_that_tell_of_water(words):
    told = [words, "paint peels"]
    found = findings(RULE, [WALL | {"condition": told}], seen=SOUND)["told of water"]
    assert found.severity is Severity.MEND
    assert found.facts["words"] == (words,)


@pytest.mark.parametrize(
    "words",
    [
        "no leaks",
        "not wet",
        "never leaked",
        "free of rot",
        "no visible leaks",
        "no signs of damp",
        "paint peels",
        "rotating vent",
        "crown molding is loose",
        "stained glass",
        "stainless flashing",
        "damper sticks",
    ],
)
def test_words_that_tell_of_none(words):
    assert set(findings(RULE, [WALL | {"condition": [words]}], seen=SOUND)) == {"kept off"}


def test_an_old_stain_is_answered_by_dry():
    part = WALL | {"condition": ["old water stain"], "wetness": "dry"}
    assert set(findings(RULE, [part], seen=SOUND)) == {"kept off"}


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("dry", "dry below grade", Severity.GOOD),
        ("damp", "damp below grade", Severity.MEND),
        ("wet", "wet below grade", Severity.MEND),
        (None, "below grade not looked at", Severity.OPEN),
    ],
)
def test_walls_below_grade(answer, outcome, severity):
    found = findings(RULE, CELLAR, seen=SOUND | {"below_grade": answer})
    assert set(found) == {outcome, "kept off"}
    assert found[outcome].severity is severity


def test_without_walls_below_grade_nothing_is_asked_of_them():
    assert set(findings(RULE, [WALL, SLAB], seen=SOUND | {"below_grade": "wet"})) == {"kept off"}


def test_work_on_wet_walls_below_grade_is_stopped():
    seen = SOUND | {"below_grade": "wet"}
    inside = {"basement wall": {"inside": [solid("expanded polystyrene", "2 in")]}}
    covered = findings(RULE, CELLAR, inside, seen=seen)
    assert set(covered) == {"wet below grade, worked on", "kept off"}
    assert covered["wet below grade, worked on"].severity is Severity.STOP
    moved = findings(RULE, CELLAR, does={"inside": ["basement"]}, seen=seen)
    assert "wet below grade, worked on" in moved
    outside = {"wall of studs": {"outside": [solid("expanded polystyrene", "2 in")]}}
    assert "wet below grade" in findings(RULE, CELLAR, outside, seen=seen)


def test_walls_below_grade_are_named_and_what_of_their_cellar_is_worked_on():
    ground = ("basement wall", "basement floor")
    dry = findings(RULE, CELLAR, seen=SOUND | {"below_grade": "dry"})["dry below grade"]
    assert dry.components == ground
    above = part("above grade", "wall", ("basement", "outdoors"), [BRICK])
    lined = {"above grade": {"inside": [solid("expanded polystyrene", "2 in")]}}
    seen = SOUND | {"below_grade": "wet"}
    found = findings(RULE, [*CELLAR, above], lined, seen=seen)["wet below grade, worked on"]
    assert found.components == (*ground, "above grade")


@pytest.mark.parametrize("keys", [{"condition": ["efflorescence"]}, {"wetness": "damp"}])
def test_a_note_of_water_contradicts_dry(keys):
    parts = [WALL, FLOOR, BASEMENT_WALL | keys, BASEMENT_FLOOR]
    found = findings(RULE, parts, seen=SOUND | {"below_grade": "dry"})
    assert "dry below grade" not in found
    contradicted = found["dry below grade, noted otherwise"]
    assert contradicted.severity is Severity.OPEN
    assert contradicted.components == ("basement wall",)
    assert contradicted.facts["words"] == (
        *keys.get("condition", ()),
        *keys.get("wetness", "").split(),
    )


def test_old_salts_on_a_wall_that_was_found_dry_contradict_nothing():
    wall = BASEMENT_WALL | {"condition": ["efflorescence"], "wetness": "dry"}
    found = findings(RULE, [WALL, FLOOR, wall, BASEMENT_FLOOR], seen=SOUND | {"below_grade": "dry"})
    assert set(found) == {"dry below grade", "kept off"}


def test_a_note_of_water_at_another_wall_contradicts_nothing():
    wall = WALL | {"condition": ["damp at the sill"]}
    found = findings(RULE, [wall, *CELLAR[1:]], seen=SOUND | {"below_grade": "dry"})
    assert set(found) == {"dry below grade", "told of water", "kept off"}


@pytest.mark.parametrize(
    ("change", "outcome"),
    [
        ({"fill": "dense-pack cellulose"}, "flashing: doubtful, cladding stays"),
        ({"remove": ["old siding"], "outside": [SIDING]}, "flashing: doubtful, cladding off"),
    ],
)
def test_flashing_is_renewed_as_the_strategy_allows(change, outcome):
    seen = SOUND | {"flashing": "doubtful"}
    found = the_one(RULE, [WALL], {"wall of studs": change}, seen=seen)
    assert (found.outcome, found.severity) == (outcome, Severity.MEND)


@pytest.mark.parametrize(
    ("question", "answer", "severity"),
    [
        ("gutters", "leaking", Severity.MEND),
        ("gutters", "missing", Severity.MEND),
        ("ground_slope", "level", Severity.WATCH),
        ("ground_slope", "toward the house", Severity.MEND),
        ("flashing", "doubtful", Severity.MEND),
    ],
)
def test_one_bad_answer_is_told_alone(question, answer, severity):
    found = the_one(RULE, [WALL], seen=SOUND | {question: answer})
    assert (found.outcome, found.severity) == (f"{question}: {answer}", severity)


def test_what_nobody_looked_at_is_listed_beside_what_is_bad():
    found = findings(RULE, [WALL], seen={"gutters": "missing"})
    assert set(found) == {"gutters: missing", "not looked at"}
    assert found["not looked at"].severity is Severity.OPEN
    assert found["not looked at"].facts["questions"] == ("ground_slope", "flashing")
    none = the_one(RULE, [WALL])
    assert none.facts["questions"] == ("gutters", "ground_slope", "flashing")


def test_all_sound_is_good():
    assert the_one(RULE, [WALL], seen=SOUND).severity is Severity.GOOD


def test_nothing_is_asked_of_a_house_without_a_face_outdoors():
    assert not findings(RULE, [SLAB])


def test_a_note_of_leaking_gutters_contradicts_sound():
    wall = WALL | {"condition": ["gutter leaks at the corner", "damp at the sill"]}
    found = findings(RULE, [wall], seen=SOUND)["kept off, noted otherwise"]
    assert found.severity is Severity.OPEN
    assert found.components == ("wall of studs",)
    assert found.facts["words"] == ("gutter leaks at the corner",)
    answered = wall | {"wetness": "dry"}
    assert the_one(RULE, [answered], seen=SOUND).outcome == "kept off"
