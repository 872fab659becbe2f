"""A vented crawlspace through the graph against the suspended floor of ISO 13370.

The standard folds ground and vents under a suspended floor into 1/U = 1/U_f + 1/(U_g + U_x), with
U_g = 2 k/(pi B' + d_g) ln(pi B'/d_g + 1), d_g = w + k (R_si + R_g + R_se), and
U_x = 2 h U_w/B' + 1450 epsilon v f_w/B' (ISO 13370:2007 9.2, memory). The same house as a graph:
a floor to the crawlspace, a bare slab, a wall above grade, and the flow through the vents.
"""

import json
import math

import pytest

from server.core.air import air_density, crawlspace_flow
from server.files.building import read_project
from tests.conftest import SMALL_HOUSE

AREA, PERIMETER, HEIGHT = 80.0, 36.0, 0.5
FLOOR_U, WALL_U = 0.4, 1.7
OPENING, SHIELDING = 1500e-6, 0.05
SOIL, WALL = 2.0, 0.3


@pytest.fixture(scope="module")
def result():
    document = json.loads(SMALL_HOUSE.read_text())
    document["strategies"] = []
    document["junctions"] = []
    document["spaces"] = {
        "indoors": {"inside": True, "volume": "200 m^3"},
        "crawl": {
            "inside": False,
            "volume": "40 m^3",
            "crawl_vents": {"opening_area": "1500 mm^2/m", "perimeter": "36 m"},
        },
    }
    document["assemblies"] = {"bare soil": {"layers": [{"resistance": "0 m^2*K/W"}]}}
    document["heating"].pop("ducts_in", None)
    if "cooling" in document:
        document["cooling"].pop("ducts_in", None)
    document["components"] = [
        {"name": "floor", "kind": "floor", "from": "indoors", "to": "crawl", "area": "80 m^2"}
        | {"u_value": "0.4 W/(m^2*K)"},
        {"name": "soil", "kind": "slab", "from": "crawl", "to": "ground", "area": "80 m^2"}
        | {"exposed_perimeter": "36 m", "assembly": "bare soil", "soil": "sand"},
        {"name": "wall", "kind": "wall", "from": "crawl", "to": "outdoors", "area": "18 m^2"}
        | {"u_value": "1.7 W/(m^2*K)"},
    ]
    return read_project(json.dumps(document)).compare().as_found


def test_a_crawlspace_agrees_with_the_suspended_floor(result):
    climate = result.house.climate
    days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    wind = sum(n * u for n, u in zip(days, climate.wind_speed, strict=True)) / 365
    dimension = AREA / (PERIMETER / 2)
    thickness = WALL + SOIL * (0.17 + 0.0 + 0.04)
    ground = 2 * SOIL / (math.pi * dimension + thickness)
    ground *= math.log(math.pi * dimension / thickness + 1)
    vents = 2 * HEIGHT * WALL_U / dimension + 1450 * OPENING * wind * SHIELDING / dimension
    expected = AREA / (1 / FLOOR_U + 1 / (ground + vents))
    ours = float(result.to_outdoors + result.to_ground)
    assert ours == pytest.approx(expected, rel=0.01)  # the site's air is thinner than 1450 has it


def test_the_flow_is_what_1450_stands_for():
    """1450 epsilon v f_w/B' of a floor is 725 epsilon v f_w of each m: rho c times the flow."""
    flow = crawlspace_flow(OPENING, 1.0, 3.0, SHIELDING)
    by_standard = 1450 / 2 * OPENING * 3.0 * SHIELDING
    assert flow * air_density(0.0) * 1006 == pytest.approx(by_standard, rel=0.02)
