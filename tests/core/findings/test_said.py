"""What notes of a survey say is there, and what they deny. English of our own."""

import re

import pytest

from server.core.findings.said import denies, says
from server.core.findings.water_first import says_water

HAZARD = re.compile(r"knob-and-tube|asbestos|vermiculite", re.IGNORECASE)


@pytest.mark.parametrize(
    "words",
    [
        "no asbestos",
        "no sign of vermiculite",
        "without any asbestos",
        "asbestos: tested, none",
        "asbestos tested negative",
        "asbestos siding removed",
        "knob-and-tube was removed in 2015",
        "knob-and-tube, all removed.",
        "never had knob-and-tube",
    ],
)
def test_denied(words):
    assert denies(HAZARD, words)
    assert not says(HAZARD, words)


@pytest.mark.parametrize(
    "words",
    [
        "knob-and-tube removed in kitchen, live in attic",
        "knob-and-tube only partly removed",
        "knob-and-tube removed, some left",
        "no knob-and-tube in the kitchen, still live upstairs",
        "vermiculite not removed",
        "vermiculite never removed",
        "asbestos not removed",
        "no gutters, asbestos siding",
        "not looked behind asbestos",
    ],
)
def test_said_though_a_word_of_denial_stands_near(words):
    assert says(HAZARD, words)


@pytest.mark.parametrize(
    ("words", "is_wet"),
    [
        ("no rot but wet", True),
        ("no gutters wall wet", True),
        ("never repaired leak", True),
        ("past leak at the chimney", False),
        ("repaired leak", False),
        ("no longer wet", False),
        ("leaky windows", False),
        ("air leaks at outlets", False),
        ("ducts leaking air", False),
        ("leaks air and rain", False),
        ("roof leaks", True),
    ],
)
def test_water(words, is_wet):
    assert says_water(words) == is_wet
