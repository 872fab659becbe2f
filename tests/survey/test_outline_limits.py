"""Any sensible outline builds, and nonsense is refused at its field."""

import json
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.files.building import read_project
from server.files.house_file import Entry, Typed
from server.files.seeds import regions
from server.survey.constructions import constructions_for
from server.survey.form import ATTICS, FACES, FOUNDATIONS, FUELS, STOREYS
from server.survey.outline import Outline, OutlineError, house_from_outline

PLAIN = Outline(name="plain", region="piedmont-nc", year_built=1960)


def lengths(least, most):
    """Lengths typed in feet or in metres."""
    number = st.floats(least, most).map(lambda value: round(value, 3))
    texts = st.one_of(
        number.map(lambda value: f"{value} m"),
        number.map(lambda value: f"{value / 0.3048:.2f} ft"),
    )
    return st.builds(
        lambda text, basis: Typed("thickness").read({"value": text, "basis": basis}),
        texts,
        st.sampled_from(["measured", "document", "default", "guess"]),
    )


def names(kind):
    return st.none() | st.sampled_from([each.name for each in constructions_for(kind)])


OUTLINES = st.builds(
    Outline,
    name=st.just("any"),
    region=st.sampled_from(list(regions())),
    year_built=st.none() | st.integers(1700, 2026),
    faces=st.sampled_from(FACES),
    length=lengths(6.0, 25.0),
    width=lengths(6.0, 25.0),
    storeys=st.sampled_from(STOREYS),
    ceiling_height=lengths(2.0, 4.0),
    floor_thickness=lengths(0.1, 0.5),
    foundation=st.sampled_from(FOUNDATIONS),
    attic=st.sampled_from(ATTICS),
    wall=names("wall"),
    ceiling=names("ceiling"),
    sloped_ceiling=names("roof"),
    attic_roof=names("roof"),
    floor=names("floor"),
    slab=names("slab"),
    foundation_wall=names("basement wall"),
    foundation_floor=names("basement floor"),
    window=names("window"),
    door=names("door"),
    fuel=st.sampled_from(FUELS),
    ducts=st.booleans(),
    cooling=st.booleans(),
)


@settings(max_examples=40, deadline=None)
@given(OUTLINES)
def test_any_sensible_outline_builds(outline):
    file = house_from_outline(outline)
    house = read_project(json.dumps(file.as_written())).house
    plan = _area(house, "floor over the", "slab")
    above = _area(house, "ceiling") + sum(
        part.area * _cosine(part.plane_tilt)
        for part in house.components
        if part.name.endswith("sloped ceiling")
    )
    assert above == pytest.approx(plan, rel=0.01)  # indoors is closed above as below
    assert file.floor_area.value >= plan * 0.999


def _area(house, *beginnings):
    return sum(part.area for part in house.components if part.name.startswith(beginnings))


def _cosine(degrees):
    return math.cos(math.radians(degrees))


def quantity(kind, text):
    return Typed(kind).read(text)


REFUSED = [
    ("name", {"name": "  "}),
    ("name", {"name": "a" * 201}),
    ("year_built", {"year_built": 1200}),
    ("bedrooms", {"bedrooms": -1}),
    ("bedrooms", {"bedrooms": 500}),
    ("faces", {"faces": "up"}),
    ("storeys", {"storeys": 1.25}),
    ("storeys", {"storeys": 0.0}),
    ("foundation", {"foundation": "stilts"}),
    ("attic", {"attic": "none"}),
    ("fuel", {"fuel": "plutonium"}),
    ("length", {"length": quantity("thickness", "0 ft")}),
    ("length", {"length": quantity("thickness", "-30 ft")}),
    ("width", {"width": quantity("thickness", "9000 ft")}),
    ("width", {"width": Entry("nan ft", float("nan"))}),
    ("length", {"length": Entry("long", 10.0)}),
    ("ceiling_height", {"ceiling_height": quantity("thickness", "8 in")}),
    ("floor_thickness", {"floor_thickness": quantity("thickness", "10 ft")}),
    ("wall_thickness", {"wall_thickness": quantity("thickness", "10 ft")}),
    (
        "wall_thickness",
        {
            "width": quantity("thickness", "3 m"),
            "wall_thickness": quantity("thickness", "1 m"),
        },
    ),
    ("roof_pitch", {"roof_pitch": quantity("angle", "90 deg")}),
    ("roof_pitch", {"roof_pitch": quantity("angle", "10 deg"), "storeys": 1.5}),
    ("foundation_height", {"foundation_height": quantity("thickness", "100 ft")}),
    ("foundation_depth", {"foundation_depth": quantity("thickness", "0 ft")}),
    (
        "foundation_depth",
        {
            "foundation_height": quantity("thickness", "6 ft"),
            "foundation_depth": quantity("thickness", "7 ft"),
        },
    ),
    ("window_area", {"window_area": quantity("area", "5000 ft^2")}),
    ("window_area", {"window_area": quantity("area", "960 ft^2")}),
    ("window_area", {"window_area": quantity("area", "-1 ft^2")}),
    ("heating_efficiency", {"heating_efficiency": quantity(None, 80)}),
    ("ach50", {"ach50": quantity(None, 0)}),
    ("wall", {"wall": "straw"}),
    ("wall", {"wall": "door, solid wood"}),
    ("floor", {"floor": "slab 4 in, bare"}),
    ("window", {"window": "skylight, double clear"}),
]


@pytest.mark.parametrize(("field", "changes"), REFUSED)
def test_nonsense_is_refused_at_its_field(field, changes):
    with pytest.raises(OutlineError) as refused:
        house_from_outline(replace(PLAIN, **changes))
    assert refused.value.field == field
    assert refused.value.words
    assert field in str(refused.value)


def test_limits_are_said_in_the_units_typed():
    with pytest.raises(OutlineError, match=r"\d.m$"):
        house_from_outline(replace(PLAIN, length=quantity("thickness", "900 m")))
    with pytest.raises(OutlineError, match=r"\d.ft$"):
        house_from_outline(replace(PLAIN, length=quantity("thickness", "900 ft")))
