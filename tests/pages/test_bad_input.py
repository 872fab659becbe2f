"""What cannot be read comes back beside its field, in words, and nothing is stored."""

import json
from dataclasses import dataclass, field

import html5lib
import pytest

from server.files.keyed import place_of
from tests.conftest import SMALL_HOUSE
from tests.databases import sqlite_database
from tests.stored_houses import WholeSite, changed_file, small_file

NOBODY = "0" * 32
SMALL = SMALL_HOUSE.read_text()
HTML = "<script>alert(1)</script>\"'><b>&amp;"
LONG = "7" * 10_000


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("site")))
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def house(site):
    return site.store(
        changed_file(
            small_file(),
            lambda document: document.update(
                materials={"own board": {"conductivity": "0.04 W/(m*K)"}}
            ),
        )
    )


@pytest.fixture(scope="module")
def before(site, house):
    """The house as it was stored, and stays."""
    return site.stored(house)


@pytest.fixture(scope="module")
def visitor(site):
    return site.visitor(site.contractor)


@pytest.fixture(scope="module")
def keys(site, house):
    document = site.stored(house).house.as_stored()
    named = {part["name"]: part["key"] for part in document["components"]}
    assembly = document["assemblies"]["wall as found"]
    return {
        "wall": named["south wall"],
        "window": named["south windows"],
        "slab": named["slab"],
        "assembly": assembly["key"],
        "plaster": assembly["layers"][0]["key"],
        "studs": assembly["layers"][1]["key"],
        "door": document["assemblies"]["old door"]["key"],
        "indoors": document["spaces"]["indoors"]["key"],
        "attic": document["spaces"]["attic"]["key"],
        "junction": document["junctions"][0]["key"],
        "strategy": document["strategies"][0]["key"],
    }


# Reading a page


@dataclass
class Page:
    """A page that was parsed without an error."""

    root: object = field(repr=False)

    @classmethod
    def of(cls, response):
        parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
        return cls(parser.parse(response.text))

    def by_id(self, name):
        found = [each for each in self.root.iter() if each.get("id") == name]
        assert len(found) == 1, f"{len(found)} elements with the id {name}"
        return found[0]

    def text(self, name):
        return " ".join("".join(self.by_id(name).itertext()).split())

    def links(self):
        """The fields that the summary of what was wrong leads to."""
        boxes = [each for each in self.root.iter() if "faults" in each.get("class", "").split()]
        assert all(box.get("role") == "alert" for box in boxes)
        return {link.get("href") for box in boxes for link in box.iter("a")}

    def field_of(self, place):
        """The field in which the value of a place is edited."""
        for form in self.root.iter("form"):
            inputs = {each.get("name"): each for each in form.iter() if each.get("name")}
            if "place" in inputs and inputs["place"].get("value") == place:
                return inputs["value"]
        raise AssertionError(f"no field for {place}")


def typed_in(element):
    """What stands in a field."""
    if element.tag == "select":
        options = list(element.iter("option"))
        chosen = [each for each in options if each.get("selected") is not None] or options[:1]
        return chosen[-1].get("value")
    if element.tag == "textarea":
        return element.text
    return element.get("value")


def check_fault(page, element, typed=None):
    """The field is marked, described by its message, and the summary leads to it."""
    assert element.get("aria-invalid") == "true"
    described = element.get("aria-describedby", "").split()
    message = " ".join(page.text(each) for each in described)
    assert message.strip()
    assert f"#{element.get('id')}" in page.links()
    if typed is not None:
        assert typed_in(element).strip() == typed.strip()
    return message


# Fields that are edited in place

WALL, WINDOW, SLAB = "parts/{wall}", "parts/{window}", "parts/{slab}"
ASSEMBLY = "assemblies/{assembly}"
PLASTER = ("assemblies", "{assembly}", "layers", "{plaster}")
SCREWS = ("assemblies", "{assembly}", "layers", "{plaster}", "fasteners")
STUDS = ("assemblies", "{assembly}", "layers", "{studs}", "framed")

EDITS = {
    # areas
    "area without a unit": (WALL, ("components", "{wall}", "area"), "454", "has no unit"),
    "area as a length": (WALL, ("components", "{wall}", "area"), "454 ft", "not an area"),
    "area below nothing": (WALL, ("components", "{wall}", "area"), "-4 ft²", "above 0"),
    "area of nothing": (WALL, ("components", "{wall}", "area"), "0 ft²", "above 0"),
    "area empty": (WALL, ("components", "{wall}", "area"), "", "must be given"),
    "area of spaces": (WALL, ("components", "{wall}", "area"), "   ", "must be given"),
    "area nan": (WALL, ("components", "{wall}", "area"), "nan ft²", ""),
    "area infinite": (WALL, ("components", "{wall}", "area"), "inf ft²", ""),
    "area far too large": (WALL, ("components", "{wall}", "area"), "1e999 ft²", ""),
    "area with a thousands comma": (WALL, ("components", "{wall}", "area"), "1,200 ft²", "comma"),
    "area with a decimal comma": (WALL, ("components", "{wall}", "area"), "12,5 m²", "comma"),
    "area as powers": (WALL, ("components", "{wall}", "area"), "9**9**9 ft²", ""),
    "area of ten thousand digits": (WALL, ("components", "{wall}", "area"), LONG, "too long"),
    "area as a script": (WALL, ("components", "{wall}", "area"), HTML, ""),
    "area in other digits": (WALL, ("components", "{wall}", "area"), "٤٥٤ ft²", "digits"),
    "area in full-width digits": (WALL, ("components", "{wall}", "area"), "４５４ ft²", "digits"),
    "area with two numbers": (WALL, ("components", "{wall}", "area"), "3 ft 4 ft²", ""),
    "area with a bell": (WALL, ("components", "{wall}", "area"), "45\a4 ft²", "cannot be read"),
    "area on two lines": (WALL, ("components", "{wall}", "area"), "454\r\nft²", "cannot be read"),
    "area in a made-up unit": (WALL, ("components", "{wall}", "area"), "4 acres", "acres"),
    "area in words": (WALL, ("components", "{wall}", "area"), "about forty", ""),
    "area over nothing": (WALL, ("components", "{wall}", "area"), "1/0 ft²", "zero"),
    "area turned round": (WALL, ("components", "{wall}", "area"), "\u202e454 ft²", ""),
    "area of a template": (WALL, ("components", "{wall}", "area"), "{{ 7*7 }} ft²", ""),
    "azimuth beyond the compass": (WALL, ("components", "{wall}", "azimuth"), "9999 deg", ""),
    "tilt beyond level": (WALL, ("components", "{wall}", "tilt"), "-200 deg", ""),
    # parts
    "kind of no kind": (WALL, ("components", "{wall}", "kind"), "turret", "allowed are"),
    "kind empty": (WALL, ("components", "{wall}", "kind"), "", "must be given"),
    "warm side unknown": (WALL, ("components", "{wall}", "from"), "the moon", "the moon"),
    "warm side empty": (WALL, ("components", "{wall}", "from"), "", "must be given"),
    "other side unknown": (WALL, ("components", "{wall}", "to"), HTML, ""),
    "warm side is the other": (WALL, ("components", "{wall}", "to"), "indoors", ""),
    "assembly unknown": (WALL, ("components", "{wall}", "assembly"), "straw", "straw"),
    "assembly empty": (WALL, ("components", "{wall}", "assembly"), "", "exactly one"),
    "name empty": (WALL, ("components", "{wall}", "name"), "", "name is needed"),
    "name of another part": (WALL, ("components", "{wall}", "name"), "north wall", ""),
    "name too long": (WALL, ("components", "{wall}", "name"), "x" * 201, "200"),
    "name of ten thousand letters": (WALL, ("components", "{wall}", "name"), "x" * 10_000, "200"),
    "absorptance above one": (WALL, ("components", "{wall}", "solar_absorptance"), "1.5", ""),
    "absorptance below nothing": (WALL, ("components", "{wall}", "solar_absorptance"), "-1", ""),
    "shading above one": (WALL, ("components", "{wall}", "shading"), "1.2", ""),
    "shading of eleven months": (WALL, ("components", "{wall}", "shading"), "1 " * 11, "twelve"),
    "shading in words": (WALL, ("components", "{wall}", "shading"), "a tree", ""),
    "shgc above one": (WINDOW, ("components", "{window}", "shgc"), "7", ""),
    "u-value as a resistance": (WINDOW, ("components", "{window}", "u_value"), "R-13", ""),
    "u-value below nothing": (WINDOW, ("components", "{window}", "u_value"), "U--1", ""),
    "access of no sort": (WALL, ("components", "{wall}", "access"), "ajar", "allowed are"),
    "perimeter below nothing": (SLAB, ("components", "{slab}", "exposed_perimeter"), "-1 ft", ""),
    "soil of no sort": (SLAB, ("components", "{slab}", "soil"), "cheese", "allowed are"),
    # layers
    "thickness below nothing": (ASSEMBLY, (*PLASTER, "thickness"), "-1 in", "above 0"),
    "thickness as an area": (ASSEMBLY, (*PLASTER, "thickness"), "1 ft²", "not a thickness"),
    "thickness empty": (ASSEMBLY, (*PLASTER, "thickness"), "", "must be given"),
    "material unknown": (ASSEMBLY, (*PLASTER, "material"), "unobtainium", "unobtainium"),
    "material empty": (ASSEMBLY, (*PLASTER, "material"), "", ""),
    "framing above one": (ASSEMBLY, (*STUDS, "fraction"), "1.5", ""),
    "framing below nothing": (ASSEMBLY, (*STUDS, "fraction"), "-0.1", ""),
    "framing with a unit": (ASSEMBLY, (*STUDS, "fraction"), "25 in", "plain number"),
    "framing nan": (ASSEMBLY, (*STUDS, "fraction"), "nan", "plain number"),
    "framing infinite": (ASSEMBLY, (*STUDS, "fraction"), "-Infinity", "plain number"),
    "framing with a low line": (ASSEMBLY, (*STUDS, "fraction"), "0_1", "plain number"),
    "framing of metal": (ASSEMBLY, (*STUDS, "framing"), "steel", "layer methods do not hold"),
    "fill unknown": (ASSEMBLY, (*STUDS, "fill"), "feathers", "feathers"),
    "screws by the foot": (ASSEMBLY, (*SCREWS, "per_area"), "2 per ft", "per ft²"),
    "screws of nothing": (ASSEMBLY, (*SCREWS, "diameter"), "0.19 in", "screws or ties"),
    "storm below nothing": (WINDOW, ("components", "{window}", "storm_u_value"), "U--1", ""),
    "storm of nothing": (WINDOW, ("components", "{window}", "storm_u_value"), "U-0", "above 0"),
    "open to neither": (ASSEMBLY, (*STUDS, "open"), "maybe", "yes or no"),
    "label below nothing": (ASSEMBLY, (*PLASTER, "label_resistance"), "R--3", ""),
    # once for the house
    "set point as a difference": ("systems", ("set_points", "heating"), "70 delta_degF", ""),
    "set point as a length": ("systems", ("set_points", "heating"), "70 ft", ""),
    "set point below all cold": ("systems", ("set_points", "heating"), "-400 degC", ""),
    "set point above cooling": ("systems", ("set_points", "heating"), "90 degF", ""),
    "bedrooms of ten thousand digits": ("systems", ("bedrooms",), LONG, "plain number"),
    "bedrooms in other digits": ("systems", ("bedrooms",), "٣", "plain number"),
    "bedrooms below none": ("systems", ("bedrooms",), "-3", ""),
    "bedrooms empty": ("systems", ("bedrooms",), "", "must be given"),
    "storeys none": ("systems", ("storeys",), "0", ""),
    "year of two signs": ("systems", ("year_built",), "--3", "whole number"),
    "year long ago": ("systems", ("year_built",), "12", "1600"),
    "year with a point": ("systems", ("year_built",), "1938.5", "whole number"),
    "year of ten thousand digits": ("systems", ("year_built",), LONG, "whole number"),
    "shelter class six": ("systems", ("air", "shelter_class"), "6", ""),
    "leakage below none": ("systems", ("air", "ach50"), "-1", ""),
    "flow as powers": ("systems", ("air", "cfm50"), "9**9**9", ""),
    "heat recovery above one": ("systems", ("air", "ventilation", "heat_recovery"), "7", ""),
    "efficiency none": ("systems", ("heating", "efficiency"), "0", ""),
    "efficiency in other words": ("systems", ("heating", "efficiency"), "good", "plain number"),
    "distribution above one": ("systems", ("heating", "distribution"), "1.2", ""),
    "fuel empty": ("systems", ("heating", "fuel"), "", "must be given"),
    "ducts nowhere": ("systems", ("heating", "ducts_in"), "a cloud", ""),
    "price below nothing": ("systems", ("prices", "natural gas"), "-1 USD/therm", ""),
    "price in another sort": ("systems", ("prices", "natural gas"), "1 kg/kWh", ""),
    "shelter of no class": ("systems", ("air", "shelter_class"), "9", "5 or less"),
    "mass of no class": ("systems", ("thermal_mass",), "massive", "allowed are"),
    "house without a name": ("systems", ("name",), "", ""),
    # what was seen
    "gutters of no sort": ("seen", ("seen", "gutters"), "golden", "allowed are"),
    "chimney as a script": ("seen", ("seen", "chimney"), HTML, "allowed are"),
    "flues neither yes nor no": ("seen", ("seen", "flues_through_attic"), "perhaps", "yes or no"),
    "humidity class six": ("seen", ("indoor_humidity", "humidity_class"), "6", "5 or less"),
    "humidity class in words": ("seen", ("indoor_humidity", "humidity_class"), "dry", "whole"),
    "eleven humidities": (
        "seen",
        ("indoor_humidity", "relative_humidity"),
        "0.4 " * 11,
        "twelve figures",
    ),
    "humidities in words": ("seen", ("indoor_humidity", "relative_humidity"), "damp " * 12, "May"),
    "a humidity above all": (
        "seen",
        ("indoor_humidity", "relative_humidity"),
        "40, 40, 450" + ", 40%" * 9,
        "March: “450” is not 1 to 100 %, or 0.01 to 1.",
    ),
    "humidity of no month": ("seen", ("indoor_humidity", "relative_humidity"), "0.5 %", "All year"),
    "humidities of decimal commas": (
        "seen",
        ("indoor_humidity", "relative_humidity"),
        "0,45 " * 12,
        "not 0,45",
    ),
    "edition of no code": ("seen", ("energy_code", "edition"), "IECC 1066", "allowed are"),
    "limit as a resistance": ("seen", ("energy_code", "window"), "R-13", ""),
    "limit with a unit where none is": ("seen", ("energy_code", "shgc"), "0.4 in", "plain number"),
    "wetness of no sort": (WALL, ("components", "{wall}", "wetness"), "moist", "allowed are"),
    # spaces, junctions, strategies
    "volume below nothing": ("spaces", ("spaces", "{attic}", "volume"), "-3 ft³", "above 0"),
    "volume in pounds": ("spaces", ("spaces", "{attic}", "volume"), "3 lb", ""),
    "space called outdoors": ("spaces", ("spaces", "{attic}", "name"), "outdoors", ""),
    "space called as another": ("spaces", ("spaces", "{attic}", "name"), "indoors", "indoors"),
    "space without a name": ("spaces", ("spaces", "{attic}", "name"), "", "name is needed"),
    "air changes below none": ("spaces", ("spaces", "{attic}", "air_changes"), "-1 1/hour", ""),
    "nothing inside": ("spaces", ("spaces", "{indoors}", "inside"), "no", ""),
    "length below nothing": ("junctions", ("junctions", "{junction}", "length"), "-1 m", ""),
    "psi in u-values": ("junctions", ("junctions", "{junction}", "psi"), "0.1 W/(m²·K)", ""),
    "strategy without a name": (
        "strategies/{strategy}",
        ("strategies", "{strategy}", "name"),
        "",
        "name is needed",
    ),
    "strategy's leakage in words": (
        "strategies/{strategy}",
        ("strategies", "{strategy}", "ach50"),
        "tight",
        "plain number",
    ),
    "door's u-value empty": ("assemblies/{door}", ("assemblies", "{door}", "u_value"), "", ""),
}


def seen_of(page, place):
    for form in page.root.iter("form"):
        inputs = [(each.get("name"), each.get("value")) for each in form.iter() if each.get("name")]
        if ("place", place) in inputs:
            return dict(inputs)["seen"]
    raise AssertionError(f"no field for {place}")


@pytest.fixture(scope="module")
def page_now(visitor, house):
    """A page of the house, fetched once."""
    known = {}

    def get(path):
        if path not in known:
            response = visitor.get(f"/houses/{house}/{path}")
            assert response.status_code == 200
            known[path] = Page.of(response)
        return known[path]

    return get


def edit_form(case, keys, page_now):
    where, steps, value, _words = case
    where, place = where.format_map(keys), place_of(*(step.format_map(keys) for step in steps))
    seen = seen_of(page_now(where), place)
    return {"place": place, "page": where, "value": value, "basis": "guess", "seen": seen}


@pytest.mark.parametrize("case", EDITS.values(), ids=EDITS)
def test_a_bad_edit_comes_back_beside_its_field(site, house, before, visitor, keys, page_now, case):
    form = edit_form(case, keys, page_now)
    response = visitor.post(f"/houses/{house}/edit", form)
    assert response.status_code == 422
    page = Page.of(response)
    shown = form["value"] if form["value"].isprintable() else None
    message = check_fault(page, page.field_of(form["place"]), shown)
    assert case[3].lower() in message.lower()
    assert "<script>alert" not in response.text
    assert "49 ft²" not in response.text
    assert site.stored(house) == before


@pytest.mark.parametrize("name", ["area as a script", "kind empty", "space called as another"])
def test_a_part_of_the_page_says_what_was_wrong(site, house, before, visitor, keys, page_now, name):
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"}
    form = edit_form(EDITS[name], keys, page_now)
    response = visitor.post(f"/houses/{house}/edit", form, headers=headers)
    assert response.status_code == 422
    assert 'role="alert"' in response.text
    assert "<html" not in response.text
    assert "<script>alert" not in response.text
    assert site.stored(house) == before


NO_PLACE = {
    "a word": "unknown",
    "nothing": "",
    "no such part": f"components/{NOBODY}/area",
    "no such space": f"spaces/{NOBODY}/volume",
    "no such field": "components/{wall}/colour",
    "a part as a whole": "components/{wall}",
    "a list": "components",
    "by its number": "components/0/area",
    "into its own key": "components/{wall}/key",
    "up and out": "../../{other}/floor_area",
    "into another house": "components/{other_wall}/area",
    "deeper than there is": "floor_area/value/x/y/z",
    "of slashes": "////",
    "of percents": "%%%2F%00",
    "ten thousand steps": "a/" * 10_000,
    "a very long name": "x" * 100_000,
    "python's own": "__class__/__init__",
    "a layer that is gone": "assemblies/{assembly}/layers/" + NOBODY + "/thickness",
    "in the months": "climate/mean_temperature/0",
}


@pytest.fixture(scope="module")
def others(site, keys):
    other = site.store(small_file())
    wall = site.stored(other).house.as_stored()["components"][0]["key"]
    return keys | {"other": other, "other_wall": wall}


@pytest.mark.parametrize("partial", [False, True], ids=["whole page", "part of a page"])
@pytest.mark.parametrize("place", NO_PLACE.values(), ids=NO_PLACE)
def test_a_place_that_is_none_is_no_page(site, house, before, visitor, others, place, partial):
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"} if partial else {}
    form = {"place": place.format_map(others), "page": "systems", "value": "7 m^2", "seen": "null"}
    response = visitor.post(f"/houses/{house}/edit", form, headers=headers)
    assert response.status_code == 404
    Page.of(response)
    assert site.stored(house) == before
    assert site.stored(others["other"]).version == 1


def test_a_form_without_a_place_is_no_page(house, visitor):
    assert visitor.post(f"/houses/{house}/edit", {"value": "7 m^2"}).status_code == 404
    assert visitor.post(f"/houses/{house}/edit", {}).status_code == 404


@pytest.mark.parametrize("value", ["9", "nine"], ids=["good value", "bad value"])
@pytest.mark.parametrize("partial", [False, True], ids=["whole page", "part of a page"])
@pytest.mark.parametrize(
    "page",
    ["nonsense", "../../people", "//elsewhere.example", "parts/0", "\r\nX: y", "%00"],
)
def test_a_page_that_is_none_is_no_page(site, house, before, visitor, page, partial, value):
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"} if partial else {}
    form = {"place": "bedrooms", "page": page, "value": value, "seen": "3"}
    response = visitor.post(f"/houses/{house}/edit", form, headers=headers)
    assert response.status_code == 404
    assert site.stored(house) == before


def test_a_page_that_is_gone_is_none_for_what_was_refused(site, house, before, visitor):
    form = {"place": "bedrooms", "page": f"parts/{NOBODY}", "value": "nine", "seen": "3"}
    assert visitor.post(f"/houses/{house}/edit", form).status_code == 404
    assert site.stored(house) == before


@pytest.mark.parametrize(
    "seen", ["", "{", "[" * 100_000, "nan", "9" * 10_000, HTML], ids=lambda seen: seen[:6]
)
def test_what_was_seen_may_be_nonsense(site, house, before, visitor, seen):
    form = {"place": "bedrooms", "page": "systems", "value": "9", "seen": seen, "sent": seen}
    response = visitor.post(f"/houses/{house}/edit", form)
    assert response.status_code == 422
    assert "Somebody else wrote “3” here meanwhile" in response.text
    assert site.stored(house) == before


def test_a_file_where_a_text_belongs_is_an_empty_text(site, house, before, visitor):
    files = {
        "place": (None, "bedrooms"),
        "page": (None, "systems"),
        "value": ("x.txt", b"9"),
        "seen": ("x.txt", b"3"),
    }
    response = visitor.send("POST", f"/houses/{house}/edit", files=files)
    assert response.status_code == 422
    assert site.stored(house) == before


# Forms that add something

PART = {
    "name": "new wall",
    "kind": "wall",
    "from": "indoors",
    "to": "outdoors",
    "area": "10 m²",
    "built": "house:wall as found",
    "azimuth": "",
    "exposed_perimeter": "",
    "depth_below_grade": "",
}
SPACE = {"name": "den", "inside": "no", "volume": "30 m³", "air_changes": "1 per hour"}
LAYER = {
    "sort": "material",
    "material": "gypsum board",
    "thickness": "1/2 in",
    "framing": "",
    "fraction": "",
    "fill": "",
    "air_layer": "unventilated",
    "resistance": "",
    "label_resistance": "",
    "position": "0",
    "holder": "assemblies/{assembly}/layers",
}
JUNCTION = {
    "name": "eaves",
    "from": "indoors",
    "to": "outdoors",
    "length": "9 m",
    "psi": "0.1 W/(m·K)",
}
ASSEMBLY_FORM = {"name": "new", "construction": ""}
FORMS = {
    "part": ("parts", "", PART),
    "space": ("spaces", "spaces", SPACE),
    "layer": ("layers", "assemblies/{assembly}", LAYER),
    "junction": ("junctions", "junctions", JUNCTION),
    "assembly": ("assemblies", "assemblies", ASSEMBLY_FORM),
}
ADDED = {
    "part without a name": ("part", {"name": ""}, "name"),
    "part of a taken name": ("part", {"name": "south wall"}, "name"),
    "part of a long name": ("part", {"name": "x" * 10_000}, "name"),
    "part of no kind": ("part", {"kind": "turret"}, "kind"),
    "part without an area": ("part", {"area": ""}, "area"),
    "part of a bad area": ("part", {"area": HTML}, "area"),
    "part of an area below nothing": ("part", {"area": "-3 m²"}, "area"),
    "part of ten thousand digits": ("part", {"area": LONG}, "area"),
    "part of nothing": ("part", {"built": ""}, "built"),
    "part of an unknown assembly": ("part", {"built": "house:straw"}, "built"),
    "part of an unknown construction": ("part", {"built": f"usual:{HTML}"}, "built"),
    "part on the moon": ("part", {"from": "the moon"}, "from"),
    "part to nowhere": ("part", {"to": ""}, "to"),
    "part of a bad azimuth": ("part", {"azimuth": "north"}, "azimuth"),
    "part with a perimeter in the air": ("part", {"exposed_perimeter": "9 m"}, "exposed_perimeter"),
    "part of a bad depth": ("part", {"depth_below_grade": "deep"}, "depth_below_grade"),
    "space without a name": ("space", {"name": ""}, "name"),
    "space of a taken name": ("space", {"name": "attic"}, "name"),
    "space called ground": ("space", {"name": "ground"}, "name"),
    "space without a volume": ("space", {"volume": ""}, "volume"),
    "space of a bad volume": ("space", {"volume": "12,5 m³"}, "volume"),
    "space of bad air changes": ("space", {"air_changes": "often"}, "air_changes"),
    "inside with air changes": ("space", {"inside": "yes"}, "air_changes"),
    "layer without a material": ("layer", {"material": ""}, "material"),
    "layer of an unknown material": ("layer", {"material": HTML}, "material"),
    "layer without a thickness": ("layer", {"thickness": ""}, "thickness"),
    "layer of a bad thickness": ("layer", {"thickness": "9**9**9"}, "thickness"),
    "layer below nothing": ("layer", {"thickness": "-1 in"}, "thickness"),
    "framing without a share": ("layer", {"sort": "framed"}, "fraction"),
    "framing above one": ("layer", {"sort": "framed", "fraction": "25"}, "fraction"),
    "framing below nothing": (
        "layer",
        {"sort": "framed", "fraction": "0.2", "thickness": "-1 in"},
        "thickness",
    ),
    "fill unknown": ("layer", {"sort": "framed", "fraction": "0.2", "fill": "feathers"}, "fill"),
    "framing of metal": (
        "layer",
        {"sort": "framed", "fraction": "0.2", "framing": "steel"},
        "framing",
    ),
    "resistance missing": ("layer", {"sort": "resistance"}, "resistance"),
    "resistance of words": ("layer", {"sort": "resistance", "resistance": "much"}, "resistance"),
    "air layer of no sort": ("layer", {"sort": "air", "air_layer": "windy"}, "air_layer"),
    "label of words": ("layer", {"label_resistance": "R"}, "label_resistance"),
    "junction without a name": ("junction", {"name": " "}, "name"),
    "junction of a bad length": ("junction", {"length": "9 m²"}, "length"),
    "junction without a psi": ("junction", {"psi": ""}, "psi"),
    "junction on the moon": ("junction", {"from": "the moon"}, "from"),
    "assembly without a name": ("assembly", {"name": ""}, "name"),
    "assembly of a taken name": ("assembly", {"name": "old door"}, "name"),
    "assembly of a long name": ("assembly", {"name": "x" * 201}, "name"),
    "assembly of an unknown construction": ("assembly", {"construction": "straw"}, "construction"),
}


@pytest.mark.parametrize("case", ADDED.values(), ids=ADDED)
def test_a_form_that_adds_comes_back_beside_its_field(site, house, before, visitor, keys, case):
    form, changed, faulty = case
    action, where, good = FORMS[form]
    sent = {"form": form, "page": where.format_map(keys), "basis": "measured"} | good | changed
    sent = {name: text.replace("{assembly}", keys["assembly"]) for name, text in sent.items()}
    response = visitor.post(f"/houses/{house}/{action}", sent)
    assert response.status_code == 422
    page = Page.of(response)
    element = page.by_id(f"{form}-{faulty}")
    check_fault(page, element, sent[faulty].strip() if element.tag == "input" else None)
    for name, text in good.items():
        if name not in (*changed, "holder"):
            assert typed_in(page.by_id(f"{form}-{name}")) == text
    assert "<script>alert" not in response.text
    assert site.stored(house) == before


@pytest.mark.parametrize("form", FORMS)
def test_the_good_forms_are_good(site, visitor, form):
    house = site.store(small_file())
    key = site.stored(house).house.as_stored()["assemblies"]["wall as found"]["key"]
    action, where, good = FORMS[form]
    sent = {"form": form, "page": where.format(assembly=key)} | good
    sent = {name: text.replace("{assembly}", key) for name, text in sent.items()}
    assert visitor.post(f"/houses/{house}/{action}", sent).status_code == 303
    assert site.stored(house).version == 2


@pytest.mark.parametrize(
    "holder",
    ["", "x", "layers", f"assemblies/{NOBODY}/layers", "components/0", "name/layers", "a/" * 9999],
    ids=lambda holder: holder[:20],
)
@pytest.mark.parametrize("action", ["layers", "layers/{plaster}/move", "layers/{plaster}/remove"])
def test_layers_of_nothing_are_no_page(site, house, before, visitor, keys, action, holder):
    sent = LAYER | {"holder": holder, "page": "assemblies", "form": "layer"}
    response = visitor.post(f"/houses/{house}/{action.format_map(keys)}", sent)
    assert response.status_code == 404
    assert site.stored(house) == before


RESTORED = ["", "x", "-1", "0", "99", LONG, "٣", "1.5", HTML]


@pytest.mark.parametrize("version", RESTORED, ids=lambda version: version[:6])
def test_a_version_that_is_none_is_not_restored(site, house, before, visitor, version):
    for seen in ("1", version):
        response = visitor.post(f"/houses/{house}/restore", {"version": version, "seen": seen})
        assert response.status_code in (303, 404)
    assert site.stored(house) == before


# A new house

NEW = {
    "name": "12 Example Street",
    "region": "piedmont-nc",
    "year_built": "1938",
    "length": "36 ft",
    "width": "26 ft",
    "storeys": "1",
    "ceiling_height": "8 ft",
    "faces": "south",
    "bedrooms": "3",
    "window_area": "120 ft²",
    "basis": "measured",
}
NEW_FAULTS = {
    "without a name": ("name", ""),
    "of a long name": ("name", "x" * 10_000),
    "without a region": ("region", ""),
    "of an unknown region": ("region", HTML),
    "of a year to come": ("year_built", "9999"),
    "of a year in words": ("year_built", "old"),
    "of a year with a sign": ("year_built", "-1938"),
    "of a year with more behind": ("year_built", "0000019381"),
    "of ten thousand years": ("year_built", LONG),
    "of no length": ("length", "0 ft"),
    "of a length below nothing": ("length", "-36 ft"),
    "of a length as an area": ("length", "36 ft²"),
    "of a length without a unit": ("length", "36"),
    "of an endless length": ("length", "1e9 km"),
    "of a width as a script": ("width", HTML),
    "of a width in powers": ("width", "9**9**9"),
    "of a low ceiling": ("ceiling_height", "0.1 mm"),
    "of a comma": ("ceiling_height", "2,5 m"),
    "of a third of a storey": ("storeys", "0.3"),
    "of bedrooms in words": ("bedrooms", "many"),
    "of bedrooms below none": ("bedrooms", "-1"),
    "of bedrooms with more behind": ("bedrooms", "00000000099999"),
    "of windows larger than walls": ("window_area", "99999 ft²"),
    "of windows in words": ("window_area", "some"),
}


def houses_of(site):
    from server.storage.houses import Houses

    with site.database.session(writing=False) as session:
        return len(Houses(session, site.firm, site.clock).listed("open"))


@pytest.mark.parametrize("case", NEW_FAULTS.values(), ids=NEW_FAULTS)
def test_a_new_house_comes_back_beside_its_field(site, visitor, case):
    name, text = case
    before = houses_of(site)
    response = visitor.post("/houses", NEW | {name: text})
    assert response.status_code == 422
    page = Page.of(response)
    element = page.by_id(name)
    check_fault(page, element, text if element.tag == "input" else None)
    for other, good in NEW.items():
        if other != name:
            assert typed_in(page.by_id(other)) == good
    assert "<script>alert" not in response.text
    assert houses_of(site) == before


def test_the_good_form_of_a_new_house_is_good(site, visitor):
    before = houses_of(site)
    assert visitor.post("/houses", NEW).status_code == 303
    assert houses_of(site) == before + 1


# A house file


def spoilt(change):
    document = json.loads(SMALL)
    change(document)
    return json.dumps(document)


FILES = {
    "empty": "",
    "no JSON": "a house of wood",
    "half of one": SMALL[: len(SMALL) // 2],
    "a list": "[]",
    "a number": "7",
    "null": "null",
    "brackets": "[" * 100_000,
    "a constant": '{"format": NaN}',
    "a key twice": '{"format": 1, "format": 2}',
    "a number of ten thousand digits": f'{{"format": {LONG}}}',
    "no key at all": "{}",
    "another format": spoilt(lambda d: d.update(format="warmside-house/9")),
    "a key too many": spoilt(lambda d: d.update({HTML: 1})),
    "a key too few": spoilt(lambda d: d.pop("heating")),
    "permanent keys": spoilt(lambda d: d["components"][0].update(key="0" * 32)),
    "an area below nothing": spoilt(lambda d: d["components"][0].update(area="-3 m^2")),
    "a name that is a script": spoilt(lambda d: d.update(name=HTML, bedrooms=-1)),
    "a name with a nought": spoilt(lambda d: d.update(name="a\0b")),
    "half a sign": spoilt(lambda d: d.update(name="\ud800")),
    "a fuel of a long name": spoilt(lambda d: d["prices"].update({"x" * 201: "1 USD/therm"})),
    "a fuel of a nought": spoilt(lambda d: d["prices"].update({"a\0": "1 USD/therm"})),
    "a condition of a nought": spoilt(lambda d: d["components"][0].update(condition=["a\0"])),
    "a part between nowhere": spoilt(lambda d: d["components"][0].update({"to": "the moon"})),
    "no component": spoilt(lambda d: d.update(components=[])),
    "an unknown region": spoilt(lambda d: d.update(climate={"region": "atlantis"})),
}


@pytest.mark.parametrize("text", FILES.values(), ids=FILES)
def test_a_file_that_is_no_house_comes_back_with_its_faults(site, visitor, text):
    before = houses_of(site)
    for files in ({"text": (None, text)}, {"file": ("house.json", text.encode())}):
        response = visitor.send("POST", "/houses/from-file", files=files)
        assert response.status_code == 422
        page = Page.of(response)
        assert len(page.text("faults")) > 20
        assert (typed_in(page.by_id("text")) or "").strip() == text.strip()
        assert "<script>alert" not in response.text
    assert houses_of(site) == before


def test_bytes_that_are_no_text_come_back_with_words(site, visitor):
    before = houses_of(site)
    files = {"file": ("house.json", b"\xff\xfe\x00\x80")}
    response = visitor.send("POST", "/houses/from-file", files=files)
    assert response.status_code == 422
    assert "UTF-8" in response.text
    assert houses_of(site) == before


def test_twenty_megabytes_are_refused_in_words(site, visitor):
    before = houses_of(site)
    files = {"file": ("house.json", b" " * 20_000_000)}
    response = visitor.send("POST", "/houses/from-file", files=files)
    assert response.status_code == 413
    Page.of(response)
    assert "The file is too large" in response.text
    assert houses_of(site) == before


def test_a_file_above_the_limit_is_refused_in_words(visitor):
    files = {"file": ("house.json", b" " * 3_000_000)}
    response = visitor.send("POST", "/houses/from-file", files=files)
    assert response.status_code == 422
    assert "at most 2000000" in response.text


# Signing in

ATTEMPTS = {
    "empty": ("", ""),
    "a script": (HTML, HTML),
    "ten thousand letters": ("x" * 10_000 + "@example.com", "y" * 10_000),
    "a nought": ("a\0@example.com", "\0"),
    "no email": ("nobody", "three dry basements"),
    "another way to ask": ("' OR 1=1 --", "' OR 1=1 --"),
    "other letters": ("ünï@例え.example", "пароль"),
}


@pytest.mark.parametrize("attempt", ATTEMPTS.values(), ids=ATTEMPTS)
def test_who_cannot_sign_in_reads_why(site, attempt):
    email, password = attempt
    site.app.state.throttle = type(site.app.state.throttle)()
    response = site.visitor().post("/sign-in", {"email": email, "password": password})
    assert response.status_code == 422
    page = Page.of(response)
    assert "do not belong together" in page.text("fault")
    assert typed_in(page.by_id("email")) == email.replace("\0", "")
    assert not typed_in(page.by_id("password"))
    assert "<script>alert" not in response.text


def test_there_are_many_kinds():
    assert len(EDITS) + len(ADDED) + len(NEW_FAULTS) + len(FILES) > 150
