"""The usual constructions: each builds, each is of known materials, and resists as published."""

import json

import pytest

from server.core.transmittance import storm_window_transmittance, transmittances
from server.files.building import read_project
from server.files.house_file import FramedEntry, SolidEntry
from server.files.seeds import materials
from server.survey.checks import KIND_OF
from server.survey.constructions import constructions, constructions_for
from server.survey.usual import _CONSTRUCTIONS

R_UNIT = 0.1761102  # m2 K/W in one h ft2 F/Btu
INCH = 0.0254
ALL = constructions()
IN_GROUND = ("slab", "basement wall", "basement floor")
PLACES = [(name, kind) for name, each in ALL.items() for kind in each.kinds]


def resistance(name, kind, films="ISO 6946"):
    """Total R of a construction as a part of a small house, h ft2 F/Btu, films included."""
    part = {"name": "part", "kind": kind, "from": "indoors", "area": "100 m^2", "assembly": "it"}
    part["to"] = "ground" if kind in IN_GROUND else "attic" if kind == "ceiling" else "outdoors"
    if kind in IN_GROUND:
        part["exposed_perimeter"] = "40 m"
    if kind.startswith("basement"):
        part["depth_below_grade"] = "1.5 m"
    floor = part | {"name": "floor", "kind": "basement floor"}
    parts = [part, floor] if kind == "basement wall" else [part]
    it = ALL[name].assembly.model_dump(mode="python", by_alias=True, exclude_unset=True)
    house = {
        "format": "warmside-house/1",
        "name": "small",
        "climate": {"region": "piedmont-nc"},
        "set_points": {"heating": "70 degF", "cooling": "75 degF"},
        "floor_area": "100 m^2",
        "bedrooms": 2,
        "storeys": 1,
        "films": films,
        "spaces": {
            "indoors": {"inside": True, "volume": "250 m^3"},
            "attic": {"inside": False, "volume": "90 m^3", "air_changes": "3 1/hour"},
        },
        "air": {"ach50": 8},
        "heating": {"fuel": "natural gas", "efficiency": 0.8},
        "assemblies": {"it": it},
        "components": parts,
    }
    return transmittances(read_project(json.dumps(house)).house)[0].resistance / R_UNIT


@pytest.mark.parametrize(("name", "kind"), PLACES)
def test_every_construction_builds(name, kind):
    assert 0.5 < resistance(name, kind) < 60.0


@pytest.mark.parametrize("name", ALL)
def test_only_seed_materials_are_used(name):
    used = set()
    for layer in ALL[name].assembly.layers or []:
        if isinstance(layer, SolidEntry):
            used.add(layer.material)
        elif isinstance(layer, FramedEntry):
            used |= {layer.framed.framing, layer.framed.fill} - {"air"}
            assert layer.framed.fraction.basis == "default"
    assert used <= set(materials())


@pytest.mark.parametrize("name", ALL)
def test_every_construction_has_a_source_and_sensible_years(name):
    each = ALL[name]
    first, last = each.built
    assert each.source
    assert first is None or last is None or first < last
    glazed = bool({"window", "skylight"} & set(each.kinds))
    assert (each.shgc is not None) == glazed
    assert (each.assembly.u_value is not None) == (glazed or "door" in each.kinds)


def test_those_usual_in_the_year_stand_first():
    walls = constructions_for("wall", 2020)
    usual = [wall.is_usual_in(2020) for wall in walls]
    assert usual == sorted(usual, reverse=True)
    assert "fibre cement" in next(wall.name for wall in walls if "2x6" in wall.name)
    assert len(walls) == len(constructions_for("wall"))
    assert constructions_for("wall", 1920)[0].name.startswith("plaster, empty studs")


@pytest.mark.parametrize("field", _CONSTRUCTIONS)
def test_the_usual_ones_are_usual_in_their_years(field):
    first = 1880
    for before, name in _CONSTRUCTIONS[field]:
        assert KIND_OF[field] in ALL[name].kinds
        for year in (first, min(before - 1, 2026)):
            assert ALL[name].is_usual_in(year), (name, year)
        first = before


# ANSI/ASHRAE/IES 90.1 appendix A, U-factors of wood-framed constructions, from memory. Its walls
# have stucco and gypsum sheathing, ours have boards or fibreboard: 0.5 to 1 more in R.
PUBLISHED = [
    ("gypsum board, 2x4 R-13, plywood, stucco", "wall", 1 / 0.089, 0.08),
    ("gypsum board, 2x4 R-11, fibreboard, lap siding", "wall", 1 / 0.096 + 0.9, 0.08),
    ("gypsum board, 2x6 R-19, oriented strand board, fibre cement", "wall", 1 / 0.067, 0.08),
    # there insulation covers 2x4 chords, here it lies between joists as deep as itself
    ("attic floor, gypsum board, R-19 batts", "ceiling", 1 / 0.053, 0.10),
    ("attic floor, gypsum board, R-30 loose fill", "ceiling", 1 / 0.034, 0.08),
    ("attic floor, gypsum board, R-49 loose fill", "ceiling", 1 / 0.021, 0.08),
    ("attic floor, plaster, open joists, empty", "ceiling", 1 / 0.613, 0.15),
    # 90.1's floor has its films of still air on both sides
    ("floor, carpet over plywood, R-19 batts below", "floor", 1 / 0.051 + 0.5, 0.10),
    # ASHRAE Handbook of Fundamentals, common brick at an inch, furring left out; memory
    ("solid brick 8 in, plaster on the brick", "wall", 8 * 0.20 + 0.18 + 0.68 + 0.17, 0.12),
    ("solid brick 12 in, plaster on the brick", "wall", 12 * 0.20 + 0.18 + 0.68 + 0.17, 0.12),
    # the same, 8 in hollow block of sand and gravel to 1.11, stucco 0.2 an inch
    ("concrete block 8 in, plaster and stucco", "wall", 1.11 + 0.18 + 0.15 + 0.85, 0.08),
]


@pytest.mark.parametrize(("name", "kind", "published", "tolerance"), PUBLISHED)
def test_real_resistance_is_near_the_published_one(name, kind, published, tolerance):
    assert resistance(name, kind, "ASHRAE winter") == pytest.approx(published, rel=tolerance)


def test_plaster_and_empty_studs_by_plain_arithmetic():
    # conductivities of the material table, ISO 6946 films and its 0.18 m2 K/W of still air
    rest = 0.13 + 0.875 * INCH / 0.3 + 0.75 * INCH / 0.13 + 0.5 * INCH / 0.115 + 0.04
    stud, air = 3.625 * INCH / 0.13, 0.18
    upper = 1 / (0.25 / (rest + stud) + 0.75 / (rest + air))
    lower = rest + 1 / (0.25 / stud + 0.75 / air)
    expected = (upper + lower) / 2 / R_UNIT
    name = "plaster, empty studs, board sheathing, lap siding"
    assert resistance(name, "wall") == pytest.approx(expected, rel=1e-9)
    assert expected == pytest.approx(4.2, abs=0.1)  # an empty frame wall is about R-4


def test_a_balloon_bay_counts_half_its_air():
    rest = 0.13 + 0.875 * INCH / 0.3 + 0.75 * INCH / 0.13 + 0.5 * INCH / 0.115 + 0.04
    stud, air = 3.625 * INCH / 0.13, 0.09
    upper = 1 / (0.25 / (rest + stud) + 0.75 / (rest + air))
    lower = rest + 1 / (0.25 / stud + 0.75 / air)
    name = "plaster, open balloon frame, board sheathing, lap siding"
    assert resistance(name, "wall") == pytest.approx((upper + lower) / 2 / R_UNIT, rel=1e-9)


def test_a_sash_with_its_storm_is_near_the_whole_unit_of_the_handbook():
    """About 0.50 Btu/(h ft2 degF), ASHRAE Fundamentals (memory)."""
    both = ALL["window, single glass with storm, wood"].assembly
    whole = storm_window_transmittance(both.u_value.value, both.storm_u_value.value)
    assert whole / 5.678263 == pytest.approx(0.50, rel=0.08)


def test_a_loose_siding_and_its_gap_come_off_together():
    layers = ALL["gypsum board, 2x4 R-13, oriented strand board, vinyl siding"].assembly.layers
    assert [layer.name for layer in layers[-2:]] == ["old siding", "old siding"]


def test_thickness_is_the_sum_of_the_layers():
    wall = ALL["plaster, empty studs, board sheathing, lap siding"]
    assert wall.thickness == pytest.approx((0.875 + 3.625 + 0.75 + 0.5) * INCH)
