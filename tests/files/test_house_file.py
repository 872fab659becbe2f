"""House files: what is read comes back as written; what is wrong is named with its place."""

import copy
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.files.building import read_project
from server.files.faults import BadFile
from server.files.places import found_at, steps_of, written
from server.files.reading import LARGEST_FILE, read_house_file
from server.files.seeds import DEMO_HOUSE
from tests.conftest import SMALL_HOUSE

SMALL = json.loads(SMALL_HOUSE.read_text())


def faults_of(text):
    try:
        read_project(text)
    except BadFile as refusal:
        return refusal.faults
    return []


def refused(document):
    text = document if isinstance(document, str | bytes) else json.dumps(document)
    with pytest.raises(BadFile) as refusal:
        read_project(text)
    return refusal.value.faults


@pytest.mark.parametrize("path", [SMALL_HOUSE, DEMO_HOUSE], ids=["small", "demo"])
def test_a_file_comes_back_exactly_as_written(path):
    document = json.loads(path.read_text())
    file, _raw = read_house_file(path.read_bytes())
    assert file.as_written() == document


def changed(*steps, to=None, drop=False):
    """The small house with one place changed."""
    document = copy.deepcopy(SMALL)
    here = document
    for step in steps[:-1]:
        here = here[step]
    if drop:
        del here[steps[-1]]
    else:
        here[steps[-1]] = to
    return document


WALL = ("components", 0)
SLAB = ("components", 15)
STUDS = ("assemblies", "wall as found", "layers", 1, "framed")
CAVITY = ("strategies", 0)

BAD = [
    # what, document, place, words
    ("empty area", changed(*WALL, "area", to=""), "components[0].area", "Nothing is written"),
    ("negative area", changed(*WALL, "area", to="-4 m^2"), "components[0].area", "above 0"),
    ("zero area", changed(*WALL, "area", to="0 ft^2"), "components[0].area", "above 0"),
    ("nan", changed(*WALL, "area", to="nan m^2"), "components[0].area", "not one that can be"),
    (
        "infinite",
        changed(*WALL, "area", to="inf ft^2"),
        "components[0].area",
        "not one that can be",
    ),
    ("nonsense unit", changed(*WALL, "area", to="4 acre-feet"), "components[0].area", "not a unit"),
    ("wrong dimension", changed(*WALL, "area", to="40 m"), "components[0].area", "length"),
    ("no unit", changed(*WALL, "area", to="40"), "components[0].area", "no unit"),
    ("plain number", changed(*WALL, "area", to=40), "components[0].area", "number and its unit"),
    ("comma", changed(*WALL, "area", to="1,200 ft^2"), "components[0].area", "comma"),
    ("power tower", changed(*WALL, "area", to="9**9**9 m"), "components[0].area", "double star"),
    ("unknown key", changed(*WALL, "colour", to="red"), "components[0].colour", "not known"),
    ("unknown top key", changed("owner", to="x"), "owner", "not known"),
    ("missing area", changed(*WALL, "area", drop=True), "components[0].area", "must be given"),
    ("no name", changed(*WALL, "name", to=""), "components[0].name", "not be empty"),
    ("name is a number", changed(*WALL, "name", to=7), "components[0].name", "text in quotes"),
    ("unknown kind", changed(*WALL, "kind", to="hedge"), "components[0].kind", "allowed are"),
    ("unknown space", changed(*WALL, "from", to="loft"), "components[0].from", "no space"),
    (
        "unknown assembly",
        changed(*WALL, "assembly", to="wall as fond"),
        "components[0].assembly",
        "near to it: wall as found",
    ),
    (
        "both constructions",
        changed(*WALL, "u_value", to="0.3 W/(m^2*K)"),
        "components[0]",
        "exactly one of assembly, u_value",
    ),
    (
        "within one space",
        changed(*WALL, "to", to="indoors"),
        "components[0].to",
        "only a partition or an inner floor",
    ),
    ("from outdoors", changed(*WALL, "from", to="outdoors"), "components[0].from", "warm side"),
    ("wall to ground", changed(*WALL, "to", to="ground"), "components[0].to", "only a slab"),
    ("slab to outdoors", changed(*SLAB, "to", to="outdoors"), "components[15].to", "against the"),
    (
        "slab without perimeter",
        changed(*SLAB, "exposed_perimeter", drop=True),
        "components[15].exposed_perimeter",
        "needs",
    ),
    ("shgc", changed("components", 1, "shgc", to=1.4), "components[1].shgc", "between 0 and 1"),
    ("shgc text", changed("components", 1, "shgc", to="0.4"), "components[1].shgc", "plain number"),
    ("truth", changed("components", 1, "shgc", to=True), "components[1].shgc", "plain number"),
    (
        "eleven months",
        changed("climate", "wind_speed", to=["3 m/s"] * 11),
        "climate.wind_speed",
        "11 were given",
    ),
    (
        "eleven shadings",
        changed("components", 1, "shading", to=[0.5] * 11),
        "components[1].shading",
        "11 were given",
    ),
    (
        "a difference for a temperature",
        changed("set_points", "heating", to="70 delta_degF"),
        "set_points.heating",
        "difference",
    ),
    (
        "a temperature for a difference",
        changed("climate", "temperature_deviation", 3, to="5 degC"),
        "climate.temperature_deviation[3]",
        "difference",
    ),
    ("hot set point", changed("set_points", "heating", to="170 degF"), "set_points.heating", "°C"),
    (
        "cooling below",
        changed("set_points", "cooling", to="60 degF"),
        "set_points.cooling",
        "below",
    ),
    (
        "no such region",
        changed("climate", to={"region": "atlantis"}),
        "climate.region",
        "no region",
    ),
    ("no such station", changed("climate", to={"station": "X1"}), "climate.station", "no station"),
    ("basis", changed("floor_area", to={"value": "9 m^2", "basis": "hope"}), "floor_area", "basis"),
    ("two tests", changed("air", "cfm50", to=900), "air", "exactly one of ach50"),
    ("shelter", changed("air", "shelter_class", to=6), "air.shelter_class", "5 or less"),
    (
        "recovery one way",
        changed(
            "air", "ventilation", to={"flow": "50 cfm", "heat_recovery": 0.6, "balanced": False}
        ),
        "air.ventilation.heat_recovery",
        "balanced",
    ),
    (
        "unknown material",
        changed(*STUDS, "framing", to="unobtainium"),
        "assemblies['wall as found'].layers[1].framed.framing",
        "no material",
    ),
    (
        "metal studs",
        changed(*STUDS, "framing", to="steel"),
        "assemblies['wall as found'].layers[1].framed.framing",
        "metal framing",
    ),
    (
        "framing share",
        changed(*STUDS, "fraction", to=1.25),
        "assemblies['wall as found'].layers[1].framed.fraction",
        "between 0 and 1",
    ),
    (
        "zero thickness",
        changed("assemblies", "wall as found", "layers", 0, "thickness", to="0 in"),
        "assemblies['wall as found'].layers[0].thickness",
        "above 0",
    ),
    (
        "no layers",
        changed("assemblies", "wall as found", "layers", to=[]),
        "assemblies['wall as found'].layers",
        "at least one",
    ),
    (
        "a layer of two sorts",
        changed(
            "assemblies",
            "wall as found",
            "layers",
            0,
            to={"material": "softwood", "resistance": ""},
        ),
        "assemblies['wall as found'].layers[0]",
        "exactly one of material",
    ),
    (
        "strategy finds nothing",
        changed(*CAVITY, "changes", "cellar", to={"fill": "dense-pack cellulose"}),
        "strategies[0].changes.cellar",
        "found nothing to act on",
    ),
    (
        "strategy removes nothing",
        changed(*CAVITY, "changes", "south wall", to={"remove": ["slate"]}),
        "strategies[0].changes['south wall'].remove[0]",
        "found nothing to act on",
    ),
    (
        "too much fill",
        changed(
            *CAVITY,
            "changes",
            "south wall",
            to={"fill": "dense-pack cellulose", "fill_thickness": "9 in"},
        ),
        "strategies[0].changes['south wall'].fill_thickness",
        "cannot hold",
    ),
    (
        "idle change",
        changed(*CAVITY, "changes", "wall", to={}),
        "strategies[0].changes.wall",
        "does",
    ),
    ("own recipe", changed(*CAVITY, "recipe", to="magic"), "strategies[0].recipe", "allowed are"),
    (
        "twice a strategy",
        changed("strategies", 1, "name", to="Cavity only"),
        "strategies[1].name",
        "",
    ),
    (
        "twice a part",
        changed("components", 1, "name", to="south wall"),
        "components[1].name",
        "differ",
    ),
    (
        "loose space",
        changed("spaces", "shed", to={"inside": False, "volume": "9 m^3"}),
        "spaces",
        "cannot be known",
    ),
    ("nothing inside", changed("spaces", "indoors", "inside", to=False), "spaces", "inside"),
    (
        "space called ground",
        changed("spaces", "ground", to={"inside": False, "volume": "9 m^3"}),
        "spaces.ground",
        "by themselves",
    ),
    (
        "negative price",
        changed("prices", "natural gas", to="-1 USD/therm"),
        "prices['natural gas']",
        "0 or more",
    ),
    ("absurd area", changed(*WALL, "area", to="1e300 m^2"), "components[0].area", "at most"),
    # what a slip of the decimal point or of the unit makes of a dwelling
    ("an area in mm^2", changed(*WALL, "area", to="20000 m^2"), "components[0].area", "at most"),
    (
        "a point left out of a volume",
        changed("spaces", "indoors", "volume", to="1000000 ft^3"),
        "spaces.indoors.volume",
        "at most",
    ),
    ("a point left out of ACH50", changed("air", to={"ach50": 125}), "air.ach50", "and 100"),
    (
        "a fan's flow in L/h",
        changed("air", "ventilation", to={"flow": "75000 cfm"}),
        "air.ventilation.flow",
        "and 5000.0\xa0L/s",
    ),
    (
        "a label in hundreds",
        changed(
            *CAVITY,
            "changes",
            "wall",
            to={"fill": "mineral wool batt", "fill_label_resistance": "R-1300"},
        ),
        "strategies[0].changes.wall.fill_label_resistance",
        "must lie between",
    ),
    (
        "a point left out of a thickness",
        changed(
            *CAVITY,
            "changes",
            "wall",
            to={"outside": [{"material": "gypsum board", "thickness": "350 in"}]},
        ),
        "strategies[0].changes.wall.outside[0].thickness",
        "at most",
    ),
    (
        "absurd cost",
        changed("prices", "electricity", to="1e300 USD/kWh"),
        "prices.electricity",
        "at",
    ),
    (
        "far too little conductivity",
        changed("materials", to={"x": {"conductivity": "1e-300 W/(m*K)"}}),
        "materials.x.conductivity",
        "must lie between",
    ),
    ("format", changed("format", to="house/9"), "format", "allowed are"),
    ("ducts nowhere", changed("heating", "ducts_in", to="moon"), "heating.ducts_in", "no space"),
    ("efficiency", changed("heating", "efficiency", to=0), "heating.efficiency", "between 0.01"),
    ("long number", changed("bedrooms", to=10**400), "bedrooms", "finite"),
    ("year", changed("year_built", to=1938.5), "year_built", "whole number"),
    ("a list for a house", changed("components", to={}), "components", "list"),
    (
        "ground facts on a wall",
        changed(*WALL, "soil", to="clay"),
        "components[0].soil",
        "only a slab",
    ),
]


@pytest.mark.parametrize(
    ("document", "place", "words"), [row[1:] for row in BAD], ids=[row[0] for row in BAD]
)
def test_bad_input_is_named_with_its_place(document, place, words):
    faults = refused(document)
    assert place in [fault.place for fault in faults]
    mine = next(fault for fault in faults if fault.place == place)
    assert words in mine.words
    assert "{" not in mine.words
    assert "\n" not in str(mine)


WHOLE = [
    ("empty", "", "empty"),
    ("blank", " \n", "empty"),
    ("not JSON", "house: yes", "not JSON"),
    ("cut short", json.dumps(SMALL)[:-2], "not JSON"),
    ("a list", "[]", "JSON object"),
    ("nan", '{"a": NaN}', "NaN"),
    ("infinity", '{"a": -Infinity}', "Infinity"),
    ("twice a key", '{"a": 1, "a": 2}', "stands twice"),
    ("100 000 nested brackets", "[" * 100_000, "nested too deeply"),
    ("100 000 nested objects", '{"a":' * 100_000, "nested too deeply"),
    ("5000 digits", '{"a": ' + "9" * 5000 + "}", "more digits"),
    ("20 MB", b" " * 20_000_000, "at most 2000000"),
    ("not UTF-8", b'{"name": "\xff"}', "not UTF-8"),
    ("null", "null", "JSON object"),
]


@pytest.mark.parametrize(("text", "words"), [row[1:] for row in WHOLE], ids=[r[0] for r in WHOLE])
def test_a_text_that_is_no_house_file_is_refused_in_words(text, words):
    faults = refused(text)
    assert len(faults) == 1
    assert words in faults[0].words
    assert faults[0].place == ""


def test_junctions_that_take_off_more_than_the_parts_lose_are_refused():
    document = changed("junctions", 0, "psi", to="-9 W/(m*K)")
    document["junctions"][0]["length"] = "9000 ft"
    with pytest.raises(BadFile, match="check the signs of psi"):
        read_project(json.dumps(document)).compare()


def test_a_house_that_loses_nothing_outdoors_still_has_a_balance():
    document = copy.deepcopy(SMALL)
    document["components"] = [document["components"][15]]
    document["junctions"], document["strategies"] = [], []
    document["spaces"] = {"indoors": document["spaces"]["indoors"]}
    document["heating"].pop("ducts_in")
    document["cooling"].pop("ducts_in")
    document["air"] = {"air_changes": "0 1/hour"}
    result = read_project(json.dumps(document)).compare().as_found
    assert 0.0 <= result.heating_load_kwh < 10_000.0
    assert 0.0 <= result.cooling_load_kwh < 10_000.0


def test_all_faults_are_told_at_once():
    document = changed(*WALL, "area", to="-4 m^2")
    document["components"][3]["area"] = "0 m^2"
    document["junctions"][0]["length"] = "0 ft"
    places = [fault.place for fault in refused(document)]
    assert places == ["components[0].area", "components[3].area", "junctions[0].length"]


def test_a_fault_quotes_what_was_read():
    [fault] = refused(changed(*WALL, "area", to="-4 m^2"))
    assert str(fault) == "components[0].area, read “-4 m^2”: must be above 0"


def test_a_byte_order_mark_is_no_fault():
    assert read_project(b"\xef\xbb\xbf" + SMALL_HOUSE.read_bytes()).house.name == SMALL["name"]


def test_the_limit_of_size_is_above_any_house():
    assert 20 * DEMO_HOUSE.stat().st_size < LARGEST_FILE


@settings(deadline=None, max_examples=150)
@given(
    place=st.sampled_from(sorted({fault_place for _n, _d, fault_place, _w in BAD})),
    junk=st.recursive(
        st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=20),
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
        max_leaves=5,
    ),
)
def test_junk_anywhere_gives_faults_or_a_house_never_a_traceback(place, junk):
    document = copy.deepcopy(SMALL)
    here = document
    *before, last = steps_of(place)
    for step in before:
        here = here[step] if isinstance(here, list) else here.setdefault(step, {})
    here[last] = junk
    for fault in faults_of(json.dumps(document)):
        assert fault.words
        assert "{" not in fault.words or "{" in str(junk)  # a sentence may quote what was typed


@given(st.lists(st.text(min_size=1, max_size=8) | st.integers(0, 99), min_size=1, max_size=5))
def test_a_written_place_is_read_back(steps):
    printable = [s if isinstance(s, int) or s.isprintable() else "key" for s in steps]
    assert steps_of(written(printable)) == printable


def test_what_stands_at_a_place_is_quoted_short():
    assert found_at({"a": [{"value": "3 m", "basis": "guess"}]}, "a[0]") == "“3 m”"
    assert found_at({"a": 1}, "b.c") is None
    assert len(found_at({"a": "x" * 500}, "a") or "") < 70
