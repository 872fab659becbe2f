"""Asbestos, and the vermiculite that may hold it."""

import pytest

from server.core.findings.asbestos import RULE
from server.core.findings.base import Severity
from tests.core.findings.cases import findings
from tests.recipes.houses import CEILING, PLASTER, WALL, bays, part, solid

CLEAR = {"loose_fill": "no vermiculite", "asbestos": "tested, none"}
SHINGLES = solid("asbestos-cement shingle", "1/4 in", name="shingles")
SHINGLED = part("side", "wall", ("indoors", "outdoors"), [PLASTER, bays(), SHINGLES])
OLD_FILL = part(
    "old ceiling",
    "ceiling",
    ("indoors", "attic"),
    [PLASTER, bays("vermiculite loose fill", "5 1/2 in", open=True)],
)
WORK = {"wall of studs": {"fill": "dense-pack cellulose"}}


@pytest.mark.parametrize(
    ("answer", "outcome", "severity"),
    [
        ("found", "found", Severity.MEND),
        ("suspected", "suspected", Severity.MEND),
        ("tested, none", "none", Severity.GOOD),
        (None, "not looked at", Severity.OPEN),
    ],
)
def test_answers_on_asbestos(answer, outcome, severity):
    for change in (None, WORK):
        found = findings(RULE, [WALL], change, seen=CLEAR | {"asbestos": answer})
        assert set(found) == {outcome}
        assert found[outcome].severity is severity


def test_vermiculite_as_found_and_under_work():
    seen = CLEAR | {"loose_fill": "vermiculite"}
    found = findings(RULE, [WALL], seen=seen)
    assert set(found) == {"vermiculite", "none"}
    assert found["vermiculite"].severity is Severity.MEND
    worked = findings(RULE, [WALL], WORK, seen=seen)
    assert set(worked) == {"vermiculite, worked on", "none"}
    assert worked["vermiculite, worked on"].severity is Severity.STOP


def test_loose_fill_that_nobody_looked_at_is_open():
    found = findings(RULE, [WALL], seen={"asbestos": "tested, none"})
    assert set(found) == {"loose fill not looked at", "none"}
    assert found["loose fill not looked at"].severity is Severity.OPEN


# Vermiculite fill was sold until about 1990 (memory).
@pytest.mark.parametrize(
    ("year", "outcomes"),
    [
        (1990, {"loose fill not looked at", "not looked at"}),
        (None, {"loose fill not looked at", "not looked at"}),
        (1991, set()),
    ],
)
def test_a_younger_house_is_not_asked(year, outcomes):
    assert set(findings(RULE, [WALL], year_built=year)) == outcomes


def test_what_was_found_in_a_younger_house_is_told():
    seen = {"loose_fill": "vermiculite", "asbestos": "found"}
    assert set(findings(RULE, [WALL], year_built=1995, seen=seen)) == {"vermiculite", "found"}


def test_materials_of_the_survey_that_say_so():
    found = findings(RULE, [SHINGLED, OLD_FILL], seen=CLEAR)
    assert set(found) == {"is there", "none"}
    assert found["is there"].severity is Severity.WATCH
    alone = findings(RULE, [SHINGLED], seen=CLEAR)["is there"]
    assert (alone.components, alone.facts["materials"]) == (("side",), ("asbestos-cement shingle",))


def test_what_comes_off():
    found = findings(RULE, [SHINGLED], {"side": {"remove": ["shingles"]}}, seen=CLEAR)
    assert set(found) == {"comes off", "none"}
    assert found["comes off"].severity is Severity.MEND
    assert found["comes off"].components == ("side",)


def test_fill_that_gives_way_to_other_fill_comes_off_too():
    change = {"old ceiling": {"fill": "cellulose loose fill"}}
    found = findings(RULE, [WALL, OLD_FILL], change, seen=CLEAR)
    assert found["comes off"].facts["materials"] == ("vermiculite loose fill",)


def test_what_stays_under_work_does_not_come_off():
    assert set(findings(RULE, [SHINGLED, WALL], WORK, seen=CLEAR)) == {"is there", "none"}
    over = {"side": {"outside": [solid("rigid mineral wool board", "2 in")]}}
    found = findings(RULE, [SHINGLED], over, seen=CLEAR)
    assert set(found) == {"covered", "none"}
    assert found["covered"].severity is Severity.MEND
    drilled = findings(RULE, [SHINGLED], {"side": {"fill": "dense-pack cellulose"}}, seen=CLEAR)
    assert drilled["drilled through"].severity is Severity.STOP
    assert set(findings(RULE, [WALL, CEILING], seen=CLEAR)) == {"none"}


NOTED = [WALL | {"condition": ["asbestos suspected at pipes; vermiculite in attic"]}]


def test_notes_are_read():
    found = findings(RULE, NOTED, WORK, year_built=1995)
    assert set(found) == {"vermiculite, worked on", "suspected"}
    denied = [WALL | {"condition": ["asbestos: tested, none"]}]
    assert findings(RULE, denied, year_built=1995) == {}


def test_a_note_that_contradicts_the_answer_is_told():
    found = findings(RULE, NOTED, seen=CLEAR)
    assert set(found) == {"contradicted"}
    assert found["contradicted"].severity is Severity.MEND
    assert found["contradicted"].components == (WALL["name"],)
