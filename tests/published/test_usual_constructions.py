"""The usual constructions against whole walls, attics and floors of published tables.

U in Btu/(h ft2 degF), all from memory:
- GUIDE: the tables of the American heating guides of the 1940s and 50s, which leave framing out;
- 90.1: ASHRAE 90.1 Normative Appendix A (A2.4 attics, A3.4 wood-framed walls, A5.4 wood floors);
- SUMS: single resistances of ASHRAE Fundamentals added up, lowest and highest of their range.
Theirs and ours differ in linings and in the conductivity of wood (ours 0.13, theirs 0.115 W/(m K)),
so the tolerance is 12 %.
"""

import json

import pytest

from server.core.films import ASHRAE_WINTER, HOUR_FT2_DEGF_PER_BTU, HeatFlow
from server.core.label_against_real import RealResistance, real_resistance
from server.files.building import read_project
from server.survey.constructions import constructions
from tests.conftest import SMALL_HOUSE

TOLERANCE = 0.12
UP, LEVEL, DOWN = HeatFlow.UP, HeatFlow.LEVEL, HeatFlow.DOWN
ALL = constructions()


@pytest.fixture(scope="module")
def built():
    """Every layered construction as the core's assembly."""
    document = json.loads(SMALL_HOUSE.read_text(encoding="utf-8"))
    document["assemblies"] |= {
        name: each.assembly.model_dump(by_alias=True, exclude_none=True)
        for name, each in ALL.items()
        if each.assembly.layers
    }
    first = document["components"][0]
    document["components"] += [
        first | {"name": name, "assembly": name, "kind": "partition", "to": first["from"]}
        for name in document["assemblies"]
    ]
    document["strategies"] = []
    house = read_project(json.dumps(document)).house
    return {part.name: part.construction for part in house.components}


def real(assembly, flow, faces_outdoors) -> RealResistance:
    inside = ASHRAE_WINTER.inside(flow)
    outside = ASHRAE_WINTER.outside if faces_outdoors else inside
    return real_resistance(assembly.layers, flow, inside, outside)


GUIDE = [
    ("plaster, empty studs, board sheathing, lap siding", LEVEL, True, 0.25),
    ("plaster, empty studs, board sheathing, wood shingles", LEVEL, True, 0.25),
    ("plaster, empty studs, board sheathing, stucco", LEVEL, True, 0.30),
    ("attic floor, plaster, open joists, empty", UP, False, 0.61),
    ("attic floor, plaster, empty joists under boards", UP, False, 0.28),
    ("sloped ceiling, plaster, empty rafters, asphalt shingles", UP, True, 0.31),
]


@pytest.mark.parametrize(("name", "flow", "outdoors", "expected"), GUIDE)
def test_unframed_against_the_old_guides(built, name, flow, outdoors, expected):
    ours = HOUR_FT2_DEGF_PER_BTU / real(built[name], flow, outdoors).unframed
    assert ours == pytest.approx(expected, rel=TOLERANCE)


APPENDIX_A = [
    ("gypsum board, 2x4 R-13, plywood, stucco", LEVEL, True, 0.089),
    ("gypsum board, 2x6 R-19, oriented strand board, fibre cement", LEVEL, True, 0.067),
    ("attic floor, gypsum board, R-19 batts", UP, False, 0.053),
    ("attic floor, gypsum board, R-30 loose fill", UP, False, 0.034),
    ("attic floor, gypsum board, R-49 loose fill", UP, False, 0.021),
    ("floor, carpet over plywood, R-19 batts below", DOWN, False, 0.051),
]


@pytest.mark.parametrize(("name", "flow", "outdoors", "expected"), APPENDIX_A)
def test_real_against_appendix_a(built, name, flow, outdoors, expected):
    ours = HOUR_FT2_DEGF_PER_BTU / real(built[name], flow, outdoors).real
    assert ours == pytest.approx(expected, rel=TOLERANCE)


# R of the wall with films 0.68 and 0.17: soft brick 0.20 to 0.24 an inch, 1/2 in plaster 0.09 to
# 0.18; 8 in block 0.97 to 1.11; face brick 0.11 to 0.16 and hollow tile 0.28 an inch; granite
# rubble 0.05 to 0.08 an inch; softwood 0.94 to 1.25 an inch; concrete 0.06 to 0.08 an inch.
SUMS = [
    ("solid brick 8 in, plaster on the brick", 0.85 + 8 * 0.20 + 0.09, 0.85 + 8 * 0.24 + 0.18),
    ("solid brick 12 in, plaster on the brick", 0.85 + 12 * 0.20 + 0.09, 0.85 + 12 * 0.24 + 0.18),
    ("concrete block 8 in, plaster and stucco", 0.85 + 0.97 + 0.24, 0.85 + 1.11 + 0.33),
    (
        "brick and hollow clay tile 8 in, plaster",
        0.85 + 3.75 * (0.11 + 0.25) + 0.09,
        0.85 + 3.75 * (0.16 + 0.28) + 0.18,
    ),
    ("stone rubble 18 in, plaster on the stone", 0.85 + 18 * 0.05 + 0.1, 0.85 + 18 * 0.08 + 0.2),
    ("solid logs 8 in", 0.85 + 7 * 0.94, 0.85 + 7 * 1.25),
    ("foundation wall, poured concrete 8 in", 0.85 + 8 * 0.06, 0.85 + 8 * 0.08),
]


@pytest.mark.parametrize(("name", "low", "high"), SUMS)
def test_masonry_against_sums_of_the_handbook(built, name, low, high):
    ours = real(built[name], LEVEL, True).real / HOUR_FT2_DEGF_PER_BTU
    assert low - 0.005 <= ours <= high + 0.005


# Pairs that differ in one thing.


def test_open_ends_cost_half_the_air_of_the_bay(built):
    closed = real(
        built["plaster, balloon frame with fire blocking, board sheathing, lap siding"], LEVEL, True
    )
    through = real(built["plaster, open balloon frame, board sheathing, lap siding"], LEVEL, True)
    assert closed.unframed - through.unframed == pytest.approx(0.09, abs=1e-9)


def test_bays_open_to_an_attic_count_plaster_alone(built):
    name = "knee wall, plaster, bays open to the side attic"
    plaster = 0.875 * 0.0254 / 0.3
    expected = plaster + 2 * ASHRAE_WINTER.level
    assert real(built[name], LEVEL, False).real == pytest.approx(expected, rel=1e-9)


def test_brick_open_at_top_and_bottom_does_not_count(built):
    name = "gypsum board, 2x4 R-13, oriented strand board, brick veneer open at top and bottom"
    bare = built["gypsum board, 2x4 R-13, oriented strand board, vinyl siding"]
    assert real(built[name], LEVEL, True).real == pytest.approx(real(bare, LEVEL, True).real)
