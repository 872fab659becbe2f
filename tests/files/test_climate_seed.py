"""The seed climate: complete, plausible, every figure with a known source."""

import csv
import re
from pathlib import Path

import pytest

SEED_DATA = Path(__file__).resolve().parents[2] / "seed_data"
STATION_COUNT = 514

# No zone in the county map behind the seed; the pages must cope with the blank.
STATIONS_WITHOUT_ZONE = {"USW00012843", "USW00092806", "USW00094225"}

STATION_RANGES = {
    "latitude_deg": (18, 72),
    "longitude_deg": (-180, -65),
    "elevation_m": (-90, 3000),
    "low_1pct_c": (-50, 25),
    "high_99pct_c": (5, 50),
    "cooling_daily_range_k": (2, 25),
    "hdd65_published_f": (0, 20_000),
    "cdd65_published_f": (0, 6000),
    "hdd50_published_f": (0, 14_000),
    "cdd50_published_f": (0, 11_000),
}

MONTH_RANGES = {
    "mean_c": (-35, 40),
    "deviation_k": (0.3, 14),
    "horizontal_mj_m2_day": (0, 33),
    "wind_m_s": (0.2, 12),
    "humidity_ratio_g_kg": (0.1, 23),
    "sun_variation": (0, 1.5),
    "diurnal_deviation_k": (0.05, 10),
    "daily_range_k": (0.5, 25),
}


def read_rows(file_name):
    with (SEED_DATA / file_name).open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


STATIONS = read_rows("climate/stations.csv")
MONTHS = read_rows("climate/months.csv")
SOURCES = {row["source"] for row in read_rows("climate/sources.csv")}
REGIONS = read_rows("regions.csv")
ZONE_OF = {row["station"]: row["iecc_zone"] for row in STATIONS}


def test_every_station_has_twelve_months_in_the_same_order():
    assert len(STATIONS) == len(ZONE_OF) == STATION_COUNT
    expected = [(row["station"], str(month)) for row in STATIONS for month in range(1, 13)]
    assert [(row["station"], row["month"]) for row in MONTHS] == expected


@pytest.mark.parametrize(("column", "limits"), STATION_RANGES.items())
def test_station_figures_are_plausible(column, limits):
    lowest, highest = limits
    outside = [row["station"] for row in STATIONS if not lowest <= float(row[column]) <= highest]
    assert outside == []


@pytest.mark.parametrize(("column", "limits"), MONTH_RANGES.items())
def test_month_figures_are_plausible(column, limits):
    lowest, highest = limits
    outside = [
        (row["station"], row["month"])
        for row in MONTHS
        if not lowest <= float(row[column]) <= highest
    ]
    assert outside == []


def test_only_three_zones_are_missing():
    zone = re.compile(r"[1-6][ABC]|[78]")
    without = {station for station, text in ZONE_OF.items() if not zone.fullmatch(text)}
    assert without == STATIONS_WITHOUT_ZONE
    assert {ZONE_OF[station] for station in without} == {""}


def test_deviation_origin_is_given_for_every_month():
    assert {row["deviation_origin"] for row in MONTHS} == {"N", "T"}


def test_degree_days_fall_with_the_base():
    for row in STATIONS:
        assert float(row["hdd65_published_f"]) >= float(row["hdd50_published_f"])
        assert float(row["cdd65_published_f"]) <= float(row["cdd50_published_f"])


def test_hourly_percentiles_lie_outside_the_monthly_means():
    means = {}
    for row in MONTHS:
        means.setdefault(row["station"], []).append(float(row["mean_c"]))
    for row in STATIONS:
        assert float(row["low_1pct_c"]) < min(means[row["station"]])
        assert float(row["high_99pct_c"]) > max(means[row["station"]])


def test_cooling_daily_range_is_that_of_the_hottest_month():
    hottest = {}
    for row in MONTHS:
        found = hottest.setdefault(row["station"], row)
        # Strictly greater: the earlier of two equal months stands.
        if float(row["mean_c"]) > float(found["mean_c"]):
            hottest[row["station"]] = row
    for row in STATIONS:
        assert row["cooling_daily_range_k"] == hottest[row["station"]]["daily_range_k"]


def test_sources_are_known():
    for row in STATIONS:
        keys = set(row["source"].split())
        assert {"noaa-normals", "nrel-tmy3"} <= keys <= SOURCES
        assert ("eeweather-zones" in keys) == bool(row["iecc_zone"])


def test_published_sources_are_complete():
    for row in read_rows("climate/sources.csv"):
        assert all(row.values())


def test_regions_name_stations_of_the_seed():
    keys = [row["key"] for row in REGIONS]
    assert len(keys) == len(set(keys)) == 8
    assert "piedmont-nc" in keys
    for row in REGIONS:
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", row["key"])
        assert row["station"] in ZONE_OF
        assert row["name"]


def test_regions_span_the_zones():
    assert {ZONE_OF[row["station"]][0] for row in REGIONS} == set("1234567")


def test_region_note_states_the_zone_of_its_station():
    for row in REGIONS:
        assert row["note"].startswith(f"Zone {ZONE_OF[row['station']]}:")
