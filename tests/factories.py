"""Short builders of core objects."""

from __future__ import annotations

from typing import Any

import numpy as np

from server.core.air import BlowerDoor, ConstantInfiltration
from server.core.assembly import Assembly, FramedLayer, SolidLayer
from server.core.climate import Climate
from server.core.house import Component, FixedTransmittance, House, Kind, Plant, Space
from server.core.materials import Material

WOOD = Material("softwood", 0.13)
WOOL = Material("mineral wool batt", 0.036)
GYPSUM = Material("gypsum board", 0.16)


def make_climate(**changes: Any) -> Climate:
    """A mixed climate; an invented one."""
    months = np.arange(12)
    wave = np.cos(2 * np.pi * (months - 0.5) / 12)
    figures: dict[str, Any] = {
        "name": "invented",
        "latitude": 40.0,
        "longitude": -90.0,
        "elevation": 200.0,
        "mean_temperature": 11.0 - 13.0 * wave,
        "temperature_deviation": 3.5 + 1.5 * wave,
        "horizontal_irradiation": (15.0 - 8.0 * wave) * 1e6,
        "wind_speed": 3.5 + 0.5 * wave,
        "humidity_ratio": (8.0 - 5.0 * wave) * 1e-3,
    }
    return Climate(**(figures | changes))


def make_wall(fill: Material | None = WOOL, fraction: Any = 0.25, depth: Any = 0.089) -> Assembly:
    """Gypsum board on framing with fill, boards outside."""
    framed = FramedLayer(framing=WOOD, fraction=fraction, depth=depth, fill=fill)
    layers = (SolidLayer(GYPSUM, 0.0127), framed, SolidLayer(WOOD, 0.019))
    return Assembly("wall", layers)


def make_house(**changes: Any) -> House:
    """One room with four walls, windows and a roof; no ground."""
    built = make_wall()
    sides = ((0.0, "north"), (90.0, "east"), (180.0, "south"), (270.0, "west"))
    parts = [
        Component(f"{name} wall", Kind.WALL, "indoors", "outdoors", 25.0, built, azimuth=azimuth)
        for azimuth, name in sides
    ]
    glass = FixedTransmittance(2.8)
    parts += [
        Component(
            f"{name} window", Kind.WINDOW, "indoors", "outdoors", 4.0, glass, azimuth, shgc=0.55
        )
        for azimuth, name in sides
    ]
    parts.append(
        Component("roof", Kind.ROOF, "indoors", "outdoors", 100.0, make_wall(depth=0.235), 180.0)
    )
    figures: dict[str, Any] = {
        "name": "one room",
        "climate": make_climate(),
        "heating_set_point": 20.0,
        "cooling_set_point": 25.0,
        "floor_area": 100.0,
        "bedrooms": 2.0,
        "storeys": 1.0,
        "spaces": (Space("indoors", True, 250.0),),
        "components": tuple(parts),
        "leakage": BlowerDoor(0.6),
        "heating": Plant("natural gas", 0.8),
        "prices": {"natural gas": 0.05},
        "carbon": {"natural gas": 0.18},
    }
    return House(**(figures | changes))


def without_gains() -> dict[str, Any]:
    """Changes that take sun, sky, people and air's dependence on weather away."""
    return {
        "people_and_appliances": 0.0,
        "leakage": ConstantInfiltration(0.03),
        "climate": make_climate(horizontal_irradiation=np.zeros(12)),
    }
