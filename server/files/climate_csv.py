"""Weather files: twelve months or days of one's own as CSV, and typical years of hours (TMY3)."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from gettext import gettext as _
from typing import Any

import numpy as np

from server.core.climate_reduction import (
    MonthlyClimate,
    TooFewDays,
    humidity_ratio,
    reduce_days,
    reduce_hours,
)

LARGEST_WEATHER = 10_000_000  # bytes
MOST_FAULTS = 20
_TMY3_DATE = "Date (MM/DD/YYYY)"
_TMY3 = {  # column to the least and the most that is believed
    "Dry-bulb (C)": (-70.0, 60.0),
    "Dew-point (C)": (-80.0, 40.0),
    "Pressure (mbar)": (500.0, 1100.0),
    "Wspd (m/s)": (0.0, 80.0),
    "GHI (W/m^2)": (0.0, 1500.0),
}


@dataclass(frozen=True, slots=True)
class CellFault:
    """What is wrong in a weather file. row counts from 1; column is empty for a whole row."""

    row: int
    column: str
    words: str

    def __str__(self) -> str:
        if not self.row:
            return self.words
        place = _("row {row}").format(row=self.row)
        if self.column:
            place += _(", column {column}").format(column=self.column)
        return f"{place}: {self.words}"


class BadWeather(Exception):
    """A weather file that was refused, with the first faults found in it."""

    def __init__(self, faults: list[CellFault]) -> None:
        self.faults = faults
        super().__init__("\n".join(map(str, faults)))


@dataclass(frozen=True, slots=True)
class Weather:
    """What a weather file holds. place: its name and position, as far as it says."""

    months: MonthlyClimate
    place: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Quantity:
    """A column of one's own files. to_si: from the column's unit. Limits in that unit."""

    name: str
    to_si: Callable[[float], float]
    least: float
    most: float


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


_OWN = {
    "mean_c": _Quantity("mean", lambda v: v, -70.0, 60.0),
    "mean_f": _Quantity("mean", _celsius, -94.0, 140.0),
    "min_c": _Quantity("low", lambda v: v, -80.0, 60.0),
    "min_f": _Quantity("low", _celsius, -112.0, 140.0),
    "max_c": _Quantity("high", lambda v: v, -70.0, 70.0),
    "max_f": _Quantity("high", _celsius, -94.0, 158.0),
    "deviation_k": _Quantity("deviation", lambda v: v, 0.0, 30.0),
    "deviation_f": _Quantity("deviation", lambda v: v / 1.8, 0.0, 54.0),
    "sun_mj_m2": _Quantity("sun", lambda v: v * 1e6, 0.0, 50.0),
    "sun_kwh_m2": _Quantity("sun", lambda v: v * 3.6e6, 0.0, 13.9),
    "wind_m_s": _Quantity("wind", lambda v: v, 0.0, 40.0),
    "wind_mph": _Quantity("wind", lambda v: v * 0.44704, 0.0, 89.0),
    "humidity_g_kg": _Quantity("humidity", lambda v: v / 1000.0, 0.0, 40.0),
}


def read_weather(content: bytes) -> Weather:
    """The months in a weather file of any of the three sorts. Raises: BadWeather."""
    if len(content) > LARGEST_WEATHER:
        most = LARGEST_WEATHER // 1_000_000
        raise _whole(_("the file is larger than {most} million bytes").format(most=most))
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        words = _("the file is not UTF-8 text (byte {place})").format(place=error.start)
        raise _whole(words) from None
    try:
        rows = list(csv.reader(io.StringIO(text), strict=True))
    except csv.Error as error:
        raise _whole(_("this is not CSV: {words}").format(words=error)) from None
    rows = [row for row in rows if any(cell.strip() for cell in row)]
    if len(rows) < 2:
        raise _whole(_("the file holds no rows below its heading"))
    if _TMY3_DATE in rows[1]:
        return _typical_year(rows)
    heading = [cell.strip().lower() for cell in rows[0]]
    if "month" in heading:
        return _twelve(heading, rows[1:])
    if "date" in heading:
        return _days(heading, rows[1:])
    raise _whole(
        _(
            "the first row must name the columns: month or date, then mean_c or mean_f "
            "(for days also min and max), sun_mj_m2 or sun_kwh_m2, wind_m_s or wind_mph, "
            "humidity_g_kg; or the file is a typical year in the TMY3 form"
        )
    )


def _whole(words: str) -> BadWeather:
    return BadWeather([CellFault(0, "", words)])


class _Reader:
    """Numbers out of rows; faults are collected."""

    def __init__(self, first_row: int) -> None:
        self.first_row = first_row
        self.faults: list[CellFault] = []

    def fault(self, index: int, column: str, words: str) -> None:
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(CellFault(self.first_row + index, column, words))

    def number(self, index: int, column: str, cell: str, least: float, most: float) -> float:
        try:
            value = float(cell)
        except ValueError:
            value = math.nan
        if not least <= value <= most:
            words = _("read “{cell}”; a number from {least:g} to {most:g} is needed")
            self.fault(index, column, words.format(cell=cell.strip()[:40], least=least, most=most))
            return least
        return value

    def done(self) -> None:
        if self.faults:
            raise BadWeather(self.faults)


def _own_columns(heading: Sequence[str], reader: _Reader) -> dict[str, tuple[int, _Quantity]]:
    found: dict[str, tuple[int, _Quantity]] = {}
    for place, name in enumerate(heading):
        quantity = _OWN.get(name)
        if quantity is None:
            if name not in ("month", "date"):
                reader.faults.append(CellFault(1, name, _("this column is not known here")))
        elif quantity.name in found:
            reader.faults.append(CellFault(1, name, _("this quantity stands in two columns")))
        else:
            found[quantity.name] = place, quantity
    if "mean" not in found and not {"low", "high"} <= set(found):
        words = _("a column mean_c or mean_f is needed, or the lowest and the highest")
        reader.faults.append(CellFault(1, "", words))
    reader.done()
    return found


def _own_values(
    heading: Sequence[str], rows: Sequence[Sequence[str]], reader: _Reader
) -> dict[str, np.ndarray[Any, np.dtype[np.float64]]]:
    columns = _own_columns(heading, reader)
    values: dict[str, list[float]] = {name: [] for name in columns}
    for index, row in enumerate(rows):
        if len(row) != len(heading):
            words = _("{count} cells where the heading has {needed}")
            reader.fault(index, "", words.format(count=len(row), needed=len(heading)))
            continue
        for name, (place, quantity) in columns.items():
            value = reader.number(index, heading[place], row[place], quantity.least, quantity.most)
            values[name].append(quantity.to_si(value))
    reader.done()
    read = {name: np.array(numbers) for name, numbers in values.items()}
    if "mean" not in read:
        for wrong in np.flatnonzero(read["low"] > read["high"]):
            reader.fault(int(wrong), "", _("the lowest is above the highest"))
        reader.done()
        read["mean"] = (read["low"] + read["high"]) / 2.0
    return read


def _twelve(heading: Sequence[str], rows: Sequence[Sequence[str]]) -> Weather:
    reader = _Reader(first_row=2)
    place = heading.index("month")
    if len(rows) != 12:
        words = _("twelve rows are needed, January to December; {count} were given")
        raise _whole(words.format(count=len(rows)))
    values = _own_values(heading, rows, reader)
    for index, row in enumerate(rows):
        if row[place].strip() != str(index + 1):
            words = _("read “{cell}”; {month} is needed: the months stand in order")
            reader.fault(
                index, "month", words.format(cell=row[place].strip()[:40], month=index + 1)
            )
    reader.done()
    return Weather(
        MonthlyClimate(
            mean_temperature=values["mean"],
            temperature_deviation=values.get("deviation", np.full(12, np.nan)),
            horizontal_irradiation=values.get("sun"),
            wind_speed=values.get("wind"),
            humidity_ratio=values.get("humidity"),
        )
    )


def _days(heading: Sequence[str], rows: Sequence[Sequence[str]]) -> Weather:
    reader = _Reader(first_row=2)
    values = _own_values(heading, rows, reader)
    place = heading.index("date")
    months, seen = [], set()
    for index, row in enumerate(rows):
        try:
            day = date.fromisoformat(row[place].strip())
        except ValueError:
            words = _("read “{cell}”; a day like 2024-01-31 is needed")
            reader.fault(index, "date", words.format(cell=row[place].strip()[:40]))
            continue
        if day in seen:
            reader.fault(index, "date", _("this day stands here twice"))
        seen.add(day)
        months.append(day.month)
    reader.done()
    return Weather(
        _reduced(
            lambda: reduce_days(
                np.array(months),
                values["mean"],
                sun=values.get("sun"),
                wind=values.get("wind"),
                humidity=values.get("humidity"),
            )
        )
    )


def _reduced(reduce: Callable[[], MonthlyClimate]) -> MonthlyClimate:
    try:
        return reduce()
    except TooFewDays as refusal:
        words = _("month {month} has {days} days; at least 20 are needed of each")
        raise _whole(words.format(month=refusal.month, days=refusal.days)) from None


def _typical_year(rows: Sequence[Sequence[str]]) -> Weather:
    """Hours that end at the time written; 24:00 belongs to its own date, so dates tell the days."""
    reader = _Reader(first_row=3)
    heading = [cell.strip() for cell in rows[1]]
    missing = [name for name in _TMY3 if name not in heading]
    if missing:
        raise BadWeather([CellFault(2, name, _("this column is missing")) for name in missing])
    place_of = {name: heading.index(name) for name in (_TMY3_DATE, *_TMY3)}
    values: dict[str, list[float]] = {name: [] for name in _TMY3}
    months, days = [], []
    numbers: dict[str, int] = {}
    for index, row in enumerate(rows[2:]):
        if len(row) < len(heading):
            words = _("{count} cells where the heading has {needed}")
            reader.fault(index, "", words.format(count=len(row), needed=len(heading)))
            continue
        day = row[place_of[_TMY3_DATE]]
        month = day[:2]
        if not (month.isdecimal() and 1 <= int(month) <= 12 and len(day) == 10):
            words = _("read “{cell}”; a day like 01/31/1995 is needed")
            reader.fault(index, _TMY3_DATE, words.format(cell=day[:40]))
            continue
        months.append(int(month))
        days.append(numbers.setdefault(day, len(numbers)))
        for name, (least, most) in _TMY3.items():
            values[name].append(reader.number(index, name, row[place_of[name]], least, most))
    reader.done()
    humidity = [
        humidity_ratio(dew, pressure * 100.0)
        for dew, pressure in zip(values["Dew-point (C)"], values["Pressure (mbar)"], strict=True)
    ]
    reduced = _reduced(
        lambda: reduce_hours(
            np.array(months),
            np.array(days),
            np.array(values["Dry-bulb (C)"]),
            sun=np.array(values["GHI (W/m^2)"]) * 3600.0,
            wind=np.array(values["Wspd (m/s)"]),
            humidity=np.array(humidity),
        )
    )
    return Weather(reduced, _station_of(rows[0]))


def _station_of(row: Sequence[str]) -> dict[str, Any]:
    """Number, name, state, hours from UTC, latitude, longitude, elevation; what cannot be read is
    left out."""
    cells = [cell.strip().strip('"') for cell in row]
    if len(cells) < 7:
        return {}
    place: dict[str, Any] = {"name": f"{cells[1].title()}, {cells[2]}"}
    for name, cell in zip(("latitude", "longitude", "elevation"), cells[4:7], strict=True):
        try:
            value = float(cell)
        except ValueError:
            continue
        if math.isfinite(value):
            place[name] = value
    return place
