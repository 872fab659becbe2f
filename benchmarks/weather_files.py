"""How long a weather file of the largest size takes to read, beside parsing its rows alone.

Run by hand: python -m benchmarks.weather_files. The days are invented.
"""

from __future__ import annotations

import csv
import io
import time
from datetime import date, timedelta

from server.files.climate_csv import LARGEST_WEATHER, read_weather


def largest_file() -> bytes:
    """Days upon days, up to the most that is taken."""
    lines = ["date,min_c,max_c,sun_kwh_m2,wind_m_s"]
    day, length = date(1, 1, 1), len(lines[0]) + 1
    while True:
        line = f"{day.isoformat()},{day.day % 9},{10 + day.day % 9},{day.month % 7}.25,3.50"
        length += len(line) + 1
        if length > LARGEST_WEATHER or day.year > 9000:
            return "\n".join(lines).encode()
        lines.append(line)
        day += timedelta(days=1)


def main() -> None:
    """Print both times and their ratio."""
    content = largest_file()
    start = time.perf_counter()
    rows = sum(1 for _row in csv.reader(io.StringIO(content.decode())))
    parsed = time.perf_counter() - start
    start = time.perf_counter()
    read_weather(content)
    reduced = time.perf_counter() - start
    print(f"{len(content) / 1e6:.1f} MB, {rows} rows")
    print(f"parsed as CSV alone {parsed:8.2f} s")
    print(f"read and reduced    {reduced:8.2f} s, {reduced / parsed:.1f} times as long")


if __name__ == "__main__":
    main()
