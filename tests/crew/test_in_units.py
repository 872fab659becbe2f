"""Typed units in words of the work become the reader's; all else stays."""

import pytest

from server.crew.in_units import in_units


@pytest.mark.parametrize(
    ("words", "ip", "si"),
    [
        ("Membrane, 0.6 mm", "Membrane, 0.024\u00a0in", "Membrane, 0.60\u00a0mm"),
        ("Fan, 75 ft^3/minute", "Fan, 75\u00a0cfm", "Fan, 35\u00a0L/s"),
        ("Fan, 75\u00a0cfm", "Fan, 75\u00a0cfm", "Fan, 35\u00a0L/s"),
        ("Fan, 35 L/s", "Fan, 74\u00a0cfm", "Fan, 35\u00a0L/s"),
        ("Batt, 5 1/2 in", "Batt, 5 1/2 in", "Batt, 140\u00a0mm"),
        ("Board, 50 mm", "Board, 1 15/16 in", "Board, 50\u00a0mm"),
        (
            "Strips for a 3/4 in gap, 16 in on centre",
            "Strips for a 3/4 in gap, 16 in on centre",
            "Strips for a 19\u00a0mm gap, 406\u00a0mm on centre",
        ),
        (
            "Air sealing: 754 cfm at 50 Pa taken off",
            "Air sealing: 754\u00a0cfm at 50 Pa taken off",
            "Air sealing: 356\u00a0L/s at 50 Pa taken off",
        ),
    ],
)
def test_thicknesses_and_flows_are_the_readers(words, ip, si):
    assert in_units(words, "ip") == ip
    assert in_units(words, "si") == si


@pytest.mark.parametrize(
    "words",
    [
        "Board at the slab's edge, R-8",
        "2 insulated doors",
        "2x4 framing",
        "3 m^2 of glass",
        "Permits",
    ],
)
def test_what_is_neither_stays(words):
    assert in_units(words, "si") == words
    assert in_units(words, "ip") == words


def test_feet_are_feet_and_names_are_names():
    words = "Sun-room slab: edge insulated 2 ft deep, 2 in"
    assert in_units(words, "ip") == words
    assert in_units(words, "si") == "Sun-room slab: edge insulated 610\u00a0mm deep, 51\u00a0mm"
    named = "The 12 ft room comes inside, 75 cfm"
    assert in_units(named, "si", ["12 ft Room"]) == "The 12 ft room comes inside, 35\u00a0L/s"
