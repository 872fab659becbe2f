"""Sun and sky: what every part that faces outdoors passes on, and how much sun its plane has."""

from __future__ import annotations

import numpy as np

from server.core import gains, solar
from server.core.evaluate import ComponentResult, Result
from server.core.explain.base import Column, Explanation, Formula, Input, Label
from server.core.explain.months import GAINS
from server.core.explain.parts import PartTable
from server.core.house import OUTDOORS, Component

PLANES = (
    "Collares-Pereira and Rabl (1979), Liu and Jordan (1960), Erbs, Klein and Duffie (1982); "
    "Duffie and Beckman 2.12 to 2.15"
)


def aperture_tables(result: Result) -> tuple[PartTable, ...]:
    """Openings, then opaque surfaces: the area that, fully lit, passes on the part's sun.

    Shading is empty where it differs from month to month: see `shading_columns`.
    Shapes: one house without draws, m2 and W. Range: any result. Raises: nothing.
    Source: ISO 13790:2008 11.3 and 11.4 (memory).
    """
    facing = [each for each in result.components if each.component.to_space == OUTDOORS]
    openings = [each for each in facing if each.component.lets_sun_in]
    opaque = [each for each in facing if not each.component.lets_sun_in]
    tables = []
    if openings:
        tables.append(_table(result, "openings", openings))
    if opaque:
        tables.append(_table(result, "opaque", opaque))
    return tuple(tables)


def _table(result: Result, code: str, rows: list[ComponentResult]) -> PartTable:
    film = result.house.films.outside
    parts = [each.component for each in rows]
    passed = [gains.passed_on(each.component, each.u_value, film) for each in rows]
    reaches = [_reaches(result, part.from_space) for part in parts]
    shading = [None if np.ndim(part.shading) else part.shading for part in parts]
    sky = [solar.sky_view(part.plane_tilt) for part in parts]
    radiated = solar.SKY_RADIATION * solar.SKY_TEMPERATURE_DIFFERENCE
    numbers = {plane: float(number) for number, plane in enumerate(_planes(result), start=1)}
    columns = [
        Column("n", "plane", "", tuple(numbers[gains.plane_of(part)] for part in parts)),
        Column("A", "area", "m²", tuple(part.area for part in parts)),
        Column("U", "u_value", "W/(m²·K)", tuple(each.u_value for each in rows)),
        Column("R_se", "outside_film", "m²·K/W", (film,) * len(rows)),
        Column("F_o", "bare_surface", "", tuple(float(area > 0.0) for area in passed)),
        Column("F_s", "shading", "", tuple(shading)),
        Column("F_r", "source_weight", "", tuple(reaches)),
        Column("F_k", "sky_view", "", tuple(sky)),
    ]
    if code == "openings":
        columns.append(Column("F_i", "stays", "", tuple(_stays(result, part) for part in parts)))
        columns.append(Column("SHGC", "shgc", "", tuple(part.shgc or 0.0 for part in parts)))
        expression = f"{gains.SUN_THROUGH_GLASS:g}*SHGC*A*F_r*F_i"
    else:
        absorbed = tuple(part.solar_absorptance for part in parts)
        columns.append(Column("α", "solar_absorptance", "", absorbed))
        expression = "U*A*R_se*F_o*α*F_r"
    collected = tuple(
        gains.sun_aperture(part, area) * reach * (_stays(result, part) if part.lets_sun_in else 1.0)
        for part, area, reach in zip(parts, passed, reaches, strict=True)
    )
    lost = tuple(
        area * reach * view * radiated
        for area, reach, view in zip(passed, reaches, sky, strict=True)
    )
    to_sky = f"U*A*R_se*F_o*F_r*F_k*{solar.SKY_RADIATION:g}*{solar.SKY_TEMPERATURE_DIFFERENCE:g}"
    columns += [
        Column("a", "aperture", "m²", collected, Formula("aperture", "a", expression, "m²", GAINS)),
        Column("L", "sky", "W", lost, Formula("sky", "L", to_sky, "W", GAINS)),
    ]
    return PartTable(code, tuple(part.name for part in parts), tuple(columns))


def _stays(result: Result, part: Component) -> float:
    """The share of sun let in that stays; what falls into a buffer is counted by the buffer."""
    if part.from_space in result.working.graph.buffers:
        return 1.0
    return 1.0 - float(result.working.sources.led_out)


_LEADS_OUT = Formula(
    "leads_out", "o", "min(U*R_si, 1)*A*(1 - F_k)", "m²", "own derivation: resistances in series"
)


def led_out_table(result: Result) -> PartTable:
    """The inside surfaces that lead out, and how much of what falls on them they let go.

    Shapes: one house without draws, m2. Range: any result. Raises: nothing.
    Source: `gains.led_out`.
    """
    house = result.house
    rows = [
        each
        for each in result.components
        if house.is_inside(each.component.from_space)
        and not house.is_inside(each.component.to_space)
    ]
    parts = [each.component for each in rows]
    films = [house.films.inside(part.heat_flow) for part in parts]
    buffers = result.working.graph.buffers
    kept = [
        float(buffers[part.to_space].source_share) if part.to_space in buffers else 0.0
        for part in parts
    ]
    out = [
        min(float(each.u_value) * film, 1.0) * float(each.component.area) * (1.0 - back)
        for each, film, back in zip(rows, films, kept, strict=True)
    ]
    return PartTable(
        "led_out",
        tuple(part.name for part in parts),
        (
            Column("A", "area", "m²", tuple(part.area for part in parts)),
            Column("U", "u_value", "W/(m²·K)", tuple(each.u_value for each in rows)),
            Column("R_si", "inside_film", "m²·K/W", tuple(films)),
            Column("F_k", "kept", "", tuple(kept)),
            Column("o", "leads_out", "m²", tuple(out), _LEADS_OUT),
        ),
    )


def led_out(result: Result) -> Explanation:
    """The share of radiant gains that leaves at once, from that table's columns.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: `gains.led_out`.
    """
    table = led_out_table(result)
    columns = {column.symbol: column for column in table.columns}
    out = sum(float(value or 0.0) for value in columns["o"].values)
    area = sum(float(value or 0.0) for value in columns["A"].values)
    formula = Formula(
        "led_out",
        "l",
        f"O/max({gains.SURFACES_A_FLOOR:g}*A_f, A)",
        "",
        "own derivation; 4.5 of ISO 13790 7.2.2.2 (memory)",
    )
    inputs = (
        Input("O", "leads_out", out, "m²"),
        Input("A", "area", area, "m²"),
        Input("A_f", "floor_area", result.house.floor_area, "m²", ("floor_area",)),
    )
    return Explanation(formula, result.working.sources.led_out, inputs)


def _reaches(result: Result, space: str) -> float:
    buffer = result.working.graph.buffers.get(space)
    return 1.0 if buffer is None else float(buffer.source_share)


def plane_columns(result: Result) -> tuple[Column, ...]:
    """The mean sun of every month on every plane of the house, and what it makes indoors.

    Shapes: one house without draws, W/m2 and W. Range: any result. Raises: nothing.
    Source: `solar.plane_irradiance`.
    """
    climate = result.house.climate
    planes = _planes(result)
    geometry = solar.sun_geometry(float(climate.latitude), [gains.LEVEL, *planes])
    sun = solar.plane_irradiance(geometry, climate.horizontal_irradiation)[1:]
    daily = climate.horizontal_irradiation / 1e6
    return (
        Column("H", "daily_irradiation", "MJ/(m²·d)", _plain(daily), source=climate.name),
        *(
            Column(f"I_{number}", Label(", ".join(parts)), "W/m²", _plain(monthly), source=PLANES)
            for number, (parts, monthly) in enumerate(zip(planes.values(), sun, strict=True), 1)
        ),
    )


def shading_columns(result: Result) -> tuple[Column, ...]:
    """The share of the sun that reaches those parts whose shading changes over the year.

    Shapes: one house without draws. Range: any result. Raises: nothing.
    Source: the survey.
    """
    parts = [part for part in result.house.components if np.ndim(part.shading)]
    return tuple(
        Column(f"F_{number}", Label(part.name), "", _plain(part.shading))
        for number, part in enumerate(parts, start=1)
    )


def _planes(result: Result) -> dict[solar.Plane, list[str]]:
    """The planes that face outdoors, and the parts that lie in each."""
    names: dict[solar.Plane, list[str]] = {}
    for part in result.house.components:
        if part.to_space == OUTDOORS:
            names.setdefault(gains.plane_of(part), []).append(part.name)
    return names


def _plain(values: object) -> tuple[float, ...]:
    return tuple(float(each) for each in np.asarray(values))
