"""What holds a step, and how findings are told before the work begins."""

import pytest

from server.core.findings.base import Finding, Severity
from server.finding_words.telling import Told
from server.pages.house.sheet_settle import held_by, matters, shortened


def told(severity, title, *components, code="a code"):
    finding = Finding(code, "an outcome", severity, components, {}, None, None)
    return Told(finding, title, "Text.", "", "", "", "", aside=False)


STOPS = [
    told(Severity.STOP, "Old wiring", "wall", "roof"),
    told(Severity.STOP, "Asbestos", "wall"),
    told(Severity.STOP, "Old wiring", "wall"),
    told(Severity.MEND, "Water", "floor"),
]


@pytest.mark.parametrize(
    ("components", "titles"),
    [
        (["wall"], ("Old wiring", "Asbestos")),
        (["floor", "roof"], ("Old wiring",)),
        (["floor"], ()),
        ([], ()),
    ],
)
def test_steps_are_held_by_what_stops_their_parts(components, titles):
    assert held_by(components, STOPS) == titles


def test_what_stops_the_whole_house_stops_every_part():
    everywhere = [told(Severity.STOP, "Water below grade")]
    assert held_by(["floor"], everywhere) == ("Water below grade",)
    assert held_by([], everywhere) == ("Water below grade",)
    assert held_by([], [told(Severity.STOP, "Old wiring", "wall")]) == ()


@pytest.mark.parametrize(
    ("code", "components", "is_held"),
    [
        ("asbestos and vermiculite", (), True),
        ("asbestos and vermiculite", ("wall",), False),
        ("old wiring", ("wall",), False),
        ("old wiring", (), False),
        ("water first", (), False),
        ("insects at grade", (), False),
    ],
)
def test_work_on_the_whole_house_waits_for_what_air_would_stir_up(code, components, is_held):
    stops = [told(Severity.STOP, "Stop", *components, code=code)]
    assert held_by([], stops, closes=False) == (("Stop",) if is_held else ())


def test_those_who_clear_what_is_dangerous_may_begin():
    vermiculite = told(Severity.STOP, "Vermiculite", code="asbestos and vermiculite")
    assert held_by(["ceiling"], [vermiculite], closes=False, clears=True) == ()
    assert held_by(["ceiling"], [vermiculite], closes=False) == ("Vermiculite",)
    other = told(Severity.STOP, "Foam", "ceiling", code="foam cover")
    assert held_by(["ceiling"], [other], closes=False, clears=True) == ("Foam",)


@pytest.mark.parametrize(
    ("code", "components", "is_held"),
    [
        ("old wiring", ("wall",), False),
        ("water first", ("wall",), False),
        ("foam cover", ("wall",), True),
        ("insects at grade", (), False),
        ("asbestos and vermiculite", (), True),
        ("asbestos and vermiculite", ("wall",), True),
    ],
)
def test_taking_off_waits_only_for_what_it_disturbs(code, components, is_held):
    stops = [told(Severity.STOP, "Stop", *components, code=code)]
    assert held_by(["wall"], stops, closes=False) == (("Stop",) if is_held else ())
    assert held_by(["wall"], stops) == ("Stop",)


def test_the_worst_is_told_first_and_what_is_well_not_at_all():
    found = [
        told(Severity.OPEN, "radon"),
        told(Severity.MEND, "water"),
        told(Severity.GOOD, "weight"),
        told(Severity.STOP, "wiring", "a", "b", "c", "d", "e"),
        told(Severity.WATCH, "paint"),
    ]
    lines = matters(found)
    assert [each.title for each in lines] == ["wiring", "water", "radon"]
    assert lines[0].severity_name == "STOP"
    assert lines[0].where == shortened(("a", "b", "c", "d", "e"))


def test_four_names_are_told_and_the_rest_counted():
    assert (shortened("abcd").first, shortened("abcd").more) == (("a", "b", "c", "d"), 0)
    assert (shortened("abcde").first, shortened("abcde").more) == (("a", "b", "c", "d"), 1)
