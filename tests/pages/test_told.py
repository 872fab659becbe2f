"""Differences as lines for people."""

import pytest

from server.pages.house.told import told

LINES = [
    (
        ("seen, loose_fill", None, "vermiculite"),
        "What was seen · Old loose fill: nothing → vermiculite",
    ),
    (
        ("seen, inside_paint", "latex", None),
        "What was seen · Paint inside on outside walls: latex → nothing",
    ),
    (
        ("seen, framing", None, "balloon"),
        "What was seen · How the walls are framed: nothing → balloon",
    ),
    (
        ("seen, beams_in_masonry", None, "True"),
        "What was seen · Joists or beams end in outside masonry: nothing → yes",
    ),
    (
        ("energy_code, window", None, "0.3 Btu/(hour*ft^2*delta_degF) (document)"),
        "Energy code · Windows, U at most: nothing → 0.3 Btu/(h·ft²·°F) (document)",
    ),
    (
        ("indoor_humidity, relative_humidity", None, ", ".join(["0.45 (default)"] * 12)),
        "Humidity indoors · Relative humidity: nothing → 0.45 (default), all year",
    ),
    (("set_points, heating", "70 degF", "68 degF"), "Heating set point: 70 degF → 68 degF"),
    (
        ("set_points, heating", "70 degF (guess)", "70 degF (default)"),
        "Heating set point: 70 degF, now a default",
    ),
    (
        ("floor_area", "1430 ft^2 (default)", "1430 ft^2 (measured)"),
        "Floor area: 1430 ft^2, now measured",
    ),
    (("prices, natural gas", "1 USD/therm", None), "Price · natural gas: 1 USD/therm → nothing"),
    (
        ("components, east wall, azimuth", "90 deg", "91 deg"),
        "east wall · Faces, degrees from north: 90 deg → 91 deg",
    ),
    (("components, new wall", None, "added"), "new wall: added"),
    (("junctions, eaves", "removed", None), "eaves: removed"),
    (("spaces", "attic", "loft"), "Spaces: attic → loft"),
    (("components, order", None, None), "Parts, order"),
    (
        ("assemblies, main wall, layers, inside face, thickness", "1 in", "2 in"),
        "main wall, inside face · Thickness: 1 in → 2 in",
    ),
    (
        ("air, ventilation, flow", "0 cfm", "50 cfm"),
        "Air · Ventilation · Ventilation flow: 0 cfm → 50 cfm",
    ),
]


def difference(place, before, after):
    return {"place": place, "before": before, "after": after}


@pytest.mark.parametrize(("given", "line"), LINES, ids=[line for _given, line in LINES])
def test_a_difference_is_told_by_the_label_of_its_field(given, line):
    assert told([difference(*given)]) == [line]


def test_a_word_on_what_stays_as_it_was_has_no_line_beside_others():
    idle = difference("set_points, heating", "70 degF", "70 degF (default)")
    price = difference("prices, propane", None, "3 USD/gal (default)")
    known = difference("set_points, cooling", "75 degF (guess)", "75 degF (default)")
    assert told([idle, price, known]) == [
        "Price · propane: nothing → 3 USD/gal (default)",
        "Cooling set point: 75 degF, now a default",
    ]
    assert told([idle]) == ["Heating set point: 70 degF, now a default"]
    assert told([]) == []
