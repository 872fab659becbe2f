"""Sun on planes, worked out from monthly means, against typical years hour by hour.

The hourly side is an independent library (pvlib) on the two NREL TMY3 years that it ships: position
of the sun in every hour, its beam, diffuse and global radiation, the isotropic sky. Ours knows the
latitude and the twelve mean daily sums on the level, and nothing else.
"""

import csv
import functools
import itertools
from datetime import datetime, timedelta
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from server.core.solar import (
    ALBEDO,
    declination,
    extraterrestrial_daily,
    plane_irradiance,
    sun_geometry,
    sunset_hour_angle,
)

MONTH_DAYS = np.array([31.0, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
SECONDS_A_DAY = 86400

# Tilt from level, azimuth from north clockwise; none for a level plane.
PLANES = {
    "south wall": (90.0, 180.0),
    "east wall": (90.0, 90.0),
    "west wall": (90.0, 270.0),
    "north wall": (90.0, 0.0),
    "south 30": (30.0, 180.0),
    "south 45": (45.0, 180.0),
    "level": (0.0, None),
    "south-east 60": (60.0, 135.0),
}
YEARS = {"Greensboro": "723170TYA.CSV", "Sand Point": "703165TY.csv"}
CASES = [(place, plane) for place in YEARS for plane in PLANES]


class Hours(NamedTuple):
    """A typical year: latitude, and by hour the month and W/m2 on the level and at the sun."""

    latitude: float
    longitude: float
    middle: list
    month: np.ndarray
    total: np.ndarray
    beam: np.ndarray
    diffuse: np.ndarray

    def monthly_mean(self, values):
        return np.array([values[self.month == month].mean() for month in range(1, 13)])


@functools.cache
def hours(place):
    """Rows are stamped at the end of the hour; the sun is taken in the middle of it."""
    import pvlib

    path = Path(pvlib.__file__).parent / "data" / YEARS[place]
    with path.open(newline="") as lines:
        *_, zone, latitude, longitude, _elevation = next(csv.reader(lines))
        rows = list(csv.DictReader(lines))

    def column(name):
        return np.array([float(row[name]) for row in rows])

    middle = [
        datetime.strptime(row["Date (MM/DD/YYYY)"] + " +0000", "%m/%d/%Y %z")
        + timedelta(hours=int(row["Time (HH:MM)"][:2]) - 0.5 - float(zone))
        for row in rows
    ]
    return Hours(
        latitude=float(latitude),
        longitude=float(longitude),
        middle=middle,
        month=np.array([int(row["Date (MM/DD/YYYY)"][:2]) for row in rows]),
        total=column("GHI (W/m^2)"),
        beam=column("DNI (W/m^2)"),
        diffuse=column("DHI (W/m^2)"),
    )


@functools.cache
def hour_by_hour(place):
    """Monthly mean irradiance on every plane, W/m2, by pvlib."""
    import pandas
    import pvlib

    year = hours(place)
    sun = pvlib.solarposition.get_solarposition(
        pandas.DatetimeIndex(year.middle), year.latitude, year.longitude
    )
    found = {}
    for name, (tilt, azimuth) in PLANES.items():
        parts = pvlib.irradiance.get_total_irradiance(
            tilt,
            180.0 if azimuth is None else azimuth,
            sun["apparent_zenith"].to_numpy(),
            sun["azimuth"].to_numpy(),
            year.beam,
            year.total,
            year.diffuse,
            albedo=ALBEDO,
            model="isotropic",
        )
        found[name] = year.monthly_mean(np.nan_to_num(np.asarray(parts["poa_global"])))
    return found


@functools.cache
def from_monthly_means(place):
    """Ours: the same from the year's twelve daily sums on the level alone."""
    year = hours(place)
    geometry = sun_geometry(year.latitude, list(PLANES.values()))
    daily = year.monthly_mean(year.total) * SECONDS_A_DAY
    return dict(zip(PLANES, plane_irradiance(geometry, daily), strict=True))


@functools.cache
def from_monthly_means_and_diffuse(place):
    """Ours, but with the year's own diffuse sums in place of the correlation."""
    year = hours(place)
    geometry = sun_geometry(year.latitude, list(PLANES.values()))
    daily = year.monthly_mean(year.total) * SECONDS_A_DAY
    diffuse = year.monthly_mean(year.diffuse) * SECONDS_A_DAY
    found = geometry.total * daily + geometry.diffuse * diffuse
    return dict(zip(PLANES, found, strict=True))


ANNUAL_BAND, MONTHLY_BAND = 0.08, 0.20

# Months outside the band: ours over hour by hour, less one. All are one January, at 55 degrees
# north: the sun stands 14 degrees high at noon, so that a steep plane catches three to four times
# the beam that the level does, and this one month had 67 % diffuse light where the correlation
# expects 56 % at its clearness of 0.35. A third more beam on the level becomes a third more sun on
# a south wall. With the month's own diffuse share the same planes lie within 12 %: the test below.
MONTHS_OUTSIDE_THE_BAND = {
    ("Sand Point", "south wall", 1): 0.371,
    ("Sand Point", "east wall", 1): 0.235,
    ("Sand Point", "south 30", 1): 0.223,
    ("Sand Point", "south 45", 1): 0.277,
    ("Sand Point", "south-east 60", 1): 0.317,
}


@pytest.mark.parametrize(("place", "plane"), CASES)
def test_year_on_a_plane(place, plane):
    ours = (from_monthly_means(place)[plane] * MONTH_DAYS).sum()
    expected = (hour_by_hour(place)[plane] * MONTH_DAYS).sum()
    assert ours == pytest.approx(expected, rel=ANNUAL_BAND)


@pytest.mark.parametrize(("place", "plane"), CASES)
def test_months_on_a_plane(place, plane):
    errors = from_monthly_means(place)[plane] / hour_by_hour(place)[plane] - 1
    outside = {
        (place, plane, month): error
        for month, error in enumerate(errors, start=1)
        if abs(error) > MONTHLY_BAND
    }
    listed = {
        key: error for key, error in MONTHS_OUTSIDE_THE_BAND.items() if key[:2] == (place, plane)
    }
    assert outside == pytest.approx(listed, abs=0.01)


@pytest.mark.parametrize(("place", "plane"), CASES)
def test_months_on_a_plane_with_the_diffuse_share_known(place, plane):
    """The geometry by itself: no month is further off than 12 %, Sand Point's January included."""
    ours = from_monthly_means_and_diffuse(place)[plane]
    assert ours == pytest.approx(hour_by_hour(place)[plane], rel=0.12)


# --- Astronomy -------------------------------------------------------------------------------

# Klein (1977): the mean days of the months, with their declination as printed in Duffie and
# Beckman Table 1.6.1 (memory).
KLEIN = [
    (17, -20.9),
    (47, -13.0),
    (75, -2.4),
    (105, 9.4),
    (135, 18.8),
    (162, 23.1),
    (198, 21.2),
    (228, 13.5),
    (258, 2.2),
    (288, -9.6),
    (318, -18.9),
    (344, -23.0),
]
MEAN_DAYS = np.array([float(day) for day, _ in KLEIN])
LATITUDES = [0.0, 25.8, 36.1, 45.0, 55.3, 61.2]


@pytest.mark.parametrize(("day", "degrees"), KLEIN)
def test_declination_of_the_mean_days(day, degrees):
    ours = np.degrees(declination(np.array([float(day)])))[0]
    assert ours == pytest.approx(degrees, abs=0.06), "Duffie and Beckman Table 1.6.1 (memory)"


def test_declination_all_year():
    """The same equation in pvlib to rounding; Spencer's series, which is finer, to 1.4 degrees."""
    import pvlib

    days = np.arange(1.0, 366.0)
    ours = declination(days)
    assert ours == pytest.approx(pvlib.solarposition.declination_cooper69(days), abs=1e-9)
    spencer = pvlib.solarposition.declination_spencer71(days)
    assert np.degrees(np.abs(ours - spencer)).max() < 1.4


@pytest.mark.parametrize("latitude", LATITUDES)
def test_sunset_angle(latitude):
    """Where the sun of that declination sets, its zenith angle in pvlib is 90 degrees."""
    import pvlib

    delta = declination(MEAN_DAYS)
    sunset = sunset_hour_angle(latitude, delta)
    zenith = pvlib.solarposition.solar_zenith_analytical(np.radians(latitude), sunset, delta)
    assert np.degrees(zenith) == pytest.approx(90.0, abs=1e-6)


def test_sunset_angle_of_polar_day_and_night():
    summer, winter = np.radians([23.0, -23.0])
    assert sunset_hour_angle(80.0, summer) == pytest.approx(np.pi)
    assert sunset_hour_angle(80.0, winter) == 0


@pytest.mark.parametrize("latitude", LATITUDES)
def test_extraterrestrial_sun_of_the_mean_day(latitude):
    """pvlib's normal irradiance times the cosine of its zenith angle, added up in 1 min steps."""
    import pvlib

    angle = (np.arange(1440) + 0.5) / 1440 * 2 * np.pi - np.pi
    ours = extraterrestrial_daily(latitude)
    for day, expected in zip(MEAN_DAYS, ours, strict=True):
        delta = pvlib.solarposition.declination_cooper69(day)
        zenith = pvlib.solarposition.solar_zenith_analytical(np.radians(latitude), angle, delta)
        normal = pvlib.irradiance.get_extra_radiation(day, solar_constant=1367.0, method="asce")
        summed = (normal * np.maximum(np.cos(zenith), 0)).mean() * SECONDS_A_DAY
        assert summed == pytest.approx(expected, rel=1e-4)


def whole_months(latitude, declinations, distance_method):
    """Mean over all the days of each month of the daily sun above the air, J/m2, by pvlib."""
    import pvlib

    days = np.arange(1.0, 366.0)
    normal = pvlib.irradiance.get_extra_radiation(
        days, solar_constant=1367.0, method=distance_method
    )
    angle = ((np.arange(288) + 0.5) / 288 * 2 * np.pi - np.pi)[:, np.newaxis]
    zenith = pvlib.solarposition.solar_zenith_analytical(
        np.radians(latitude), angle, declinations(days)
    )
    daily = (normal * np.maximum(np.cos(zenith), 0)).mean(axis=0) * SECONDS_A_DAY
    edges = np.concatenate([[0], MONTH_DAYS.cumsum().astype(int)])
    return [daily[start:end].mean() for start, end in itertools.pairwise(edges)]


@pytest.mark.parametrize("latitude", LATITUDES)
def test_mean_days_stand_for_their_months(latitude):
    """Klein chose the days so; within 3 % of the mean over all days of the same equation."""
    import pvlib

    months = whole_months(latitude, pvlib.solarposition.declination_cooper69, "asce")
    assert extraterrestrial_daily(latitude) == pytest.approx(months, rel=0.03)


# Latitude, largest error of a month (computed). Cooper's equation stands 1.4 degrees too far south
# in October, so that from September to November the sun above the air is rated too low.
COOPER = [(0.0, 0.006), (25.8, 0.017), (36.1, 0.026), (45.0, 0.038), (55.3, 0.064), (61.2, 0.107)]


@pytest.mark.parametrize(("latitude", "largest"), COOPER)
def test_cost_of_coopers_equation(latitude, largest):
    """Against Spencer's series for declination and distance, which is good to 0.05 degrees."""
    import pvlib

    months = whole_months(latitude, pvlib.solarposition.declination_spencer71, "spencer")
    assert extraterrestrial_daily(latitude) == pytest.approx(months, rel=largest)


# --- Sums that must come out -----------------------------------------------------------------

# Mean daily sun of a mid-latitude place, J/m2: any figures will do.
DAILY = 1e6 * np.array([9.0, 11.5, 15.5, 19.5, 20.5, 22.5, 22.0, 20.0, 16.0, 13.0, 9.0, 8.0])
# 62.3 and 71.0 are places where a step of the day finds the sun less than 0.06 degrees high.
LATITUDES_WITH_NIGHT = [0.0, 36.1, 61.2, 62.32, 70.95, 75.0, -33.9]


@pytest.mark.parametrize("latitude", LATITUDES_WITH_NIGHT)
def test_level_plane_gives_back_what_fell_on_it(latitude):
    geometry = sun_geometry(latitude, [(0.0, None), (0.0, 180.0)])
    for ours in plane_irradiance(geometry, DAILY):
        assert ours * SECONDS_A_DAY == pytest.approx(DAILY, rel=1e-6)


@pytest.mark.parametrize("latitude", LATITUDES_WITH_NIGHT)
def test_plane_that_faces_down_sees_the_ground_alone(latitude):
    geometry = sun_geometry(latitude, [(180.0, None)])
    ours = plane_irradiance(geometry, DAILY)[0]
    assert ours * SECONDS_A_DAY == pytest.approx(0.2 * DAILY, rel=1e-6)


def test_east_and_west_are_alike():
    east, west = plane_irradiance(sun_geometry(36.1, [(90.0, 90.0), (90.0, 270.0)]), DAILY)
    assert east == pytest.approx(west, rel=1e-9)


def test_south_of_the_equator_the_year_is_turned_round():
    north, south = sun_geometry(36.1, [(90.0, 180.0)]), sun_geometry(-36.1, [(90.0, 0.0)])
    june, december = 5, 11
    even = np.full(12, 15e6)
    assert plane_irradiance(south, even)[0][june] == pytest.approx(
        plane_irradiance(north, even)[0][december], rel=0.03
    )


def test_plane_all_round_is_the_mean_of_eight():
    sides = [(90.0, float(side)) for side in range(0, 360, 45)]
    around, *each = plane_irradiance(sun_geometry(36.1, [(90.0, None), *sides]), DAILY)
    assert around == pytest.approx(np.mean(each, axis=0), rel=1e-9)
