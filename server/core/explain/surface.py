"""The inside surface of a part on the design night."""

from __future__ import annotations

from server.core.evaluate import Result
from server.core.explain.base import Explanation, Formula, Input
from server.core.house import OUTDOORS

_SURFACE = Formula(
    "inside_surface",
    "T_si",
    "T_h - U*R_si*(T_h - T_e)",
    "°C",
    "steady heat flow; f_Rsi = 1 - U R_si of ISO 13788 with the film of the loss (memory)",
)


def inside_surface(result: Result, index: int) -> Explanation | None:
    """The mean inside surface of one component, by its place among them.

    None where it does not stand between inside and outdoors, or no design temperature is known: a
    part towards an attic, a basement or the ground has something warmer behind it than the design
    night. ISO 13788 takes 0.25 m2 K/W where it asks for mould; with the film of the loss this is
    the mean of a bare surface, and behind furniture, at framing and in corners it is colder.
    Shapes: one house without draws, deg C. Range: any result. Raises: nothing.
    Source: steady heat flow through the film.
    """
    house, part = result.house, result.components[index].component
    outside = house.climate.heating_design_temperature
    if outside is None or part.to_space != OUTDOORS or not house.is_inside(part.from_space):
        return None
    inside, u_value = house.heating_set_point, result.components[index].u_value
    film = house.films.inside(part.heat_flow)
    inputs = (
        Input("T_h", "heating_set_point", inside, "°C", ("set_points", "heating")),
        Input("T_e", "design_temperature", outside, "°C"),
        Input("U", "u_value", u_value, "W/(m²·K)"),
        Input("R_si", "inside_film", film, "m²·K/W"),
    )
    return Explanation(_SURFACE, inside - u_value * film * (inside - outside), inputs)
