"""Stations: found by words, told apart by distance."""

import pytest

from server.files.seeds import station_climate
from server.regions.stations import EARTH_RADIUS_KM, Station, distance_km, find_stations, stations


def place(latitude, longitude):
    return Station("X", "X", "XX", latitude, longitude, 0.0, None)


def test_distance_of_two_airports():
    """LAX (33°57'N 118°24'W) to JFK (40°38'N 73°47'W): 2144 nautical miles of one arc minute.

    Source: the worked example of the Aviation Formulary (Ed Williams), from memory: 0.623585
    radians.
    """
    distance = distance_km(33.95, -(118 + 24 / 60), place(40 + 38 / 60, -(73 + 47 / 60)))
    assert distance / EARTH_RADIUS_KM == pytest.approx(0.623585, abs=2e-6)


@pytest.mark.parametrize(
    ("start", "end", "quarters"),
    [
        ((0.0, 0.0), (0.0, 90.0), 1),
        ((0.0, 0.0), (90.0, 50.0), 1),
        ((0.0, 0.0), (0.0, 180.0), 2),
        ((0.0, 179.0), (0.0, -91.0), 1),
        ((12.0, 34.0), (12.0, 34.0), 0),
    ],
)
def test_distances_known_from_geometry(start, end, quarters):
    quarter = 6371.0 * 3.141592653589793 / 2
    assert distance_km(*start, place(*end)) == pytest.approx(quarters * quarter, abs=1e-6)


@pytest.mark.parametrize(
    ("words", "state"),
    [("greensboro", "NC"), ("Greensboro NC", "NC"), ("NC", "NC"), ("north carolina", "NC")],
)
def test_a_place_or_state_is_found(words, state):
    found = find_stations(words)
    assert found
    assert {each.state for each in found} == {state}


@pytest.mark.parametrize("words", ["", "   ", "nowhereatall", "%", "\\", "zz zz", "a" * 500])
def test_what_is_not_there_is_not_found(words):
    assert find_stations(words) == []


def test_every_station_found_has_a_climate():
    assert len(stations()) == 514
    found = find_stations("USW00013723")
    assert [each.zone for each in found] == ["4A"]
    climate = station_climate(found[0].id)
    assert (climate.latitude, climate.elevation) == (found[0].latitude, found[0].elevation)
