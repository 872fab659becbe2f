"""Print how the monthly method stands to the hourly yardstick.

Run by hand: python -m benchmarks.hourly. Two TMY3 years, the demo house as found and under each
strategy, then what is left of the difference when one cause after another is switched off.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from benchmarks.hourly.side_by_side import SideBySide, side_by_side, steady_error, without_sun
from benchmarks.hourly.weather import GREENSBORO, SAND_POINT, Array, Year, monthly_mean, read_year
from server.core.air import ConstantInfiltration
from server.core.house import House

LIGHT, HEAVY = 8_000.0, 370_000.0  # J/(m2 K)
Change = Callable[[House], House]


def line(name: str, by_month: float, by_hour: float) -> str:
    """One figure by both methods, kWh, with the difference."""
    share = f"{by_month / by_hour - 1.0:+8.1%}" if abs(by_hour) >= 1.0 else "        "
    return f"  {name:38}{by_month:9.0f}{by_hour:9.0f}{by_month - by_hour:+9.0f}{share}"


def table(both: SideBySide) -> list[str]:
    """Loads of every house, then what each strategy saves."""
    rows = []
    for use, (by_month, by_hour) in (("heating", both.heating), ("cooling", both.cooling)):
        for index, name in enumerate(both.names):
            rows.append(line(f"{use}, {name}", by_month[index], by_hour[index]))
        for index, name in enumerate(both.names[1:], start=1):
            saved = (by_month[0] - by_month[index], by_hour[0] - by_hour[index])
            rows.append(line(f"{use} saved, {name}", *saved))
        for index, name in enumerate(both.names[2:], start=2):
            apart = (by_month[1] - by_month[index], by_hour[1] - by_hour[index])
            rows.append(line(f"{use}, {both.names[1]} less {name}", *apart))
    return rows


def even_wind(year: Year) -> Year:
    """The year with each month's mean wind in every hour."""
    return replace(year, wind_speed=monthly_mean(year, year.wind_speed)[year.month])


def even_days(year: Year) -> Year:
    """The year with each day's mean temperature in every hour."""
    means = year.temperature.reshape(-1, 24).mean(axis=1)
    return replace(year, temperature=np.repeat(means, 24))


def experiments(year: Year) -> list[str]:
    """What is left of the difference under each change, house by house."""
    dark = without_sun(year)

    def storing(capacity: float) -> Change:
        return lambda house: replace(house, heat_capacity=capacity)

    def white(house: House) -> House:
        parts = tuple(replace(part, solar_absorptance=0.0) for part in house.components)
        return replace(house, components=parts)

    def even_air(house: House) -> House:
        return replace(house, leakage=ConstantInfiltration(0.06))

    def unlived(house: House) -> House:
        return replace(house, people_and_appliances=0.0)

    def dark_and_even(house: House) -> House:
        return unlived(even_air(house))

    cases = {
        "as it is": side_by_side(year),
        "gains all into the air": side_by_side(year, gains_to_air=True),
        "no sun on opaque parts": side_by_side(year, white),
        "hourly windows never opened": side_by_side(year, windows=False),
        "even wind": side_by_side(even_wind(year)),
        "even infiltration": side_by_side(year, even_air),
        "hardly any storage": side_by_side(year, storing(LIGHT)),
        "much storage": side_by_side(year, storing(HEAVY)),
        "no sun": side_by_side(dark),
        "no sun, nobody in": side_by_side(dark, unlived),
        "the same, even infiltration": side_by_side(dark, dark_and_even),
        "the same, even days": side_by_side(even_days(dark), dark_and_even),
    }
    return [difference(name, both) for name, both in cases.items()]


def difference(name: str, both: SideBySide) -> str:
    """Monthly over hourly less one, of all houses, heating then cooling."""

    def shares(pair: tuple[Array, Array]) -> str:
        return "".join(f"{month / hour - 1.0:+8.1%}" for month, hour in zip(*pair, strict=True))

    return f"  {name:30}{shares(both.heating)}   {shares(both.cooling)}"


def main() -> None:
    """Print the tables."""
    for file in (GREENSBORO, SAND_POINT):
        year = read_year(file)
        error = "".join(f"{each:+7.2%}" for each in steady_error(year))
        print(f"{year.name}: steady heating over sum(UA) dT{error}")
        print(f"  {'kWh a year':38}{'monthly':>9}{'hourly':>9}{'apart':>9}{'':8}")
        print(*table(side_by_side(year)), sep="\n", end="\n\n")
    print("Greensboro, monthly over hourly: heating of the four houses, then cooling")
    print(*experiments(read_year(GREENSBORO)), sep="\n")


if __name__ == "__main__":
    main()
