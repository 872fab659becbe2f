"""What was seen of a house: asked, answered in place, taken back."""

import pytest

from server.files.house_file import EnergyCodeEntry, SeenEntry
from server.files.keyed import place_of
from server.pages.house.seen_context import GROUPS, LIMITS
from server.pages.house.typed import seen_text
from tests.pages.test_bad_input import Page
from tests.pages.test_open_a_house import well_formed
from tests.stored_houses import small_file

PARTIAL = {"HX-Request": "true", "HX-Request-Type": "partial"}
QUESTIONS = len(SeenEntry.model_fields)
ASKED = QUESTIONS - 3  # of the small house: on a slab, of frame


@pytest.fixture
def house(site):
    return site.store(small_file())


def answer(site, house, where, value, seen="null", page="seen", **headers):
    form = {"place": where, "page": page, "value": value, "seen": seen, "basis": ""}
    return site.visitor(site.contractor).post(f"/houses/{house}/edit", form, **headers)


def shown(site, house):
    return Page.of(site.visitor(site.contractor).get(f"/houses/{house}/seen"))


def test_every_question_is_asked_once():
    asked = [name for _title, names in GROUPS for name in names]
    assert sorted(asked) == sorted(SeenEntry.model_fields)
    assert {*LIMITS, "edition"} == set(EnergyCodeEntry.model_fields)


def test_every_field_has_words_of_its_own(site, house):
    page = shown(site, house)
    labels = [each for each in page.root.iter("label") if each.get("for", "").startswith("f")]
    words = ["".join(each.itertext()) for each in labels]
    assert len(words) == len(set(words)) == QUESTIONS + 2 + 1 + len(LIMITS)
    for _title, names in GROUPS:
        for name in names:
            field = page.field_of(f"seen/{name}")
            hint = next(each for each in field.get("aria-describedby").split() if "hint" in each)
            assert page.text(hint).strip()


def test_an_open_question_is_a_dash_and_is_counted(site, house):
    page = shown(site, house)
    field = page.field_of("seen/gutters")
    assert [option.text for option in field if option.get("selected") is not None] == ["–"]
    assert f"{ASKED} of {ASKED} not answered yet" in page.text("figures")
    answer(site, house, "seen/gutters", "leaking")
    assert f"{ASKED - 1} of {ASKED} not answered yet" in shown(site, house).text("figures")


def test_an_answer_in_place_counts_at_once(site, house):
    response = answer(site, house, "seen/chimney", "unlined", headers=PARTIAL)
    assert response.status_code == 200
    assert f"{ASKED - 1} of {ASKED} not answered yet" in response.text
    assert ">saved</span>" in response.text
    assert "heat loss of the house" not in response.text
    assert site.stored(house).house.seen.chimney == "unlined"


def test_a_yes_or_no_can_be_taken_back(site, house):
    assert answer(site, house, "seen/flues_through_attic", "no").status_code == 303
    assert site.stored(house).house.seen.flues_through_attic is False
    field = shown(site, house).field_of("seen/flues_through_attic")
    assert [option.text for option in field] == ["–", "yes", "no"]
    assert answer(site, house, "seen/flues_through_attic", "", "false").status_code == 303
    assert site.stored(house).house.seen is None


def test_where_every_question_is_answered_the_page_says_so(site, house):
    for name in SeenEntry.model_fields:
        choices = shown(site, house).field_of(f"seen/{name}")
        assert answer(site, house, f"seen/{name}", choices[1].get("value")).status_code == 303
    assert "Every question is answered." in shown(site, house).text("figures")


def not_applying(site, house):
    """The questions at the end of the page, by the names of their places."""
    section = shown(site, house).root.iter("section")
    last = next(each for each in section if each.get("aria-labelledby") == "not-applying")
    places = [each.get("value") for each in last.iter("input") if each.get("name") == "place"]
    return {place.removeprefix("seen/") for place in places}


def test_what_does_not_apply_stands_at_the_end_and_is_not_counted(site, house):
    assert not_applying(site, house) == {"below_grade", "crawl_ground_cover", "veneer_weeps"}
    answer(site, house, "seen/veneer_weeps", "open")
    assert f"{ASKED} of {ASKED} not" in shown(site, house).text("figures")
    answer(site, house, "seen/chimney", "none in use")
    assert "flues_through_attic" in not_applying(site, house)
    assert f"{ASKED - 2} of {ASKED - 1} not" in shown(site, house).text("figures")


def changed(change):
    """A house with other parts, stored anew."""
    document = small_file().as_written()
    change(document)
    return type(small_file()).model_validate(document)


def with_crawlspace(document):
    document["spaces"]["crawlspace"] = {
        "inside": False,
        "volume": "2000 ft^3",
        "air_changes": "2 1/hour",
    }
    over = {"name": "floor", "kind": "floor", "from": "indoors", "to": "crawlspace"}
    out = {"name": "foundation", "kind": "wall", "from": "crawlspace", "to": "outdoors"}
    floor = {"area": "400 ft^2", "u_value": "U-0.3"}
    walls = {"area": "100 ft^2", "assembly": "wall as found"}
    document["components"] += [over | floor, out | walls]


def with_veneer(document):
    layers = document["assemblies"]["wall as found"]["layers"]
    layers[-1] = {"air_layer": "slightly ventilated", "thickness": "1 in"}
    layers[-1]["opening_area"] = "1000 mm^2/m"
    layers.append({"material": "brick veneer", "thickness": "3 5/8 in"})


def without_plaster(document):
    for assembly in document["assemblies"].values():
        for layer in assembly.get("layers", ()):
            if "plaster" in layer.get("material", ""):
                layer["material"] = "gypsum board"


@pytest.mark.parametrize(
    ("change", "apply_", "do_not"),
    [
        (with_crawlspace, {"crawl_ground_cover", "below_grade"}, {"veneer_weeps"}),
        (with_veneer, {"veneer_weeps"}, {"crawl_ground_cover", "below_grade"}),
        (without_plaster, set(), {"plaster", "veneer_weeps"}),
    ],
)
def test_what_applies_follows_from_the_survey(site, change, apply_, do_not):
    found = not_applying(site, site.store(changed(change)))
    assert not found & apply_
    assert do_not <= found


def test_the_page_leads_to_what_its_answers_change(site, house):
    page = shown(site, house)
    links = [each.get("href") for each in page.by_id("figures").iter("a")]
    assert links == [f"/houses/{house}/comparison#findings-title"]


def test_humidity_is_a_class_or_twelve_months(site, house):
    where = "indoor_humidity/humidity_class"
    assert answer(site, house, where, "2").status_code == 303
    assert site.stored(house).house.indoor_humidity.humidity_class == 2
    months = "40 % 41% 0.42 43% 44% 45% 46% 47% 48% 49% 50% 51%"
    response = answer(site, house, "indoor_humidity/relative_humidity", months, headers=PARTIAL)
    assert response.headers["HX-Refresh"] == "true"  # the class is gone from the page
    given = site.stored(house).house.indoor_humidity
    assert given.humidity_class is None
    assert [each.value for each in given.relative_humidity[:3]] == [0.4, 0.41, 0.42]
    typed = shown(site, house).field_of("indoor_humidity/relative_humidity").get("value")
    assert typed.startswith("0.4 0.41 0.42")


def test_twelve_humidities_are_known_alike(site, house):
    where, months = "indoor_humidity/relative_humidity", "40% " * 12
    form = {"place": where, "page": "seen", "value": months, "seen": "null", "basis": "document"}
    assert site.visitor(site.contractor).post(f"/houses/{house}/edit", form).status_code == 303
    given = site.stored(house).house.indoor_humidity.relative_humidity
    assert {(each.value, each.basis) for each in given} == {(0.4, "document")}
    page = shown(site, house)
    chosen = [
        each.get("value")
        for form in page.root.iter("form")
        if form.get("id") == page.field_of(where).get("id") + "-form"
        for each in form.iter("option")
        if each.get("selected") is not None
    ]
    assert chosen == ["document"]


def test_a_limit_of_ones_own(site, house):
    where = "energy_code/window"
    form = {"place": where, "page": "seen", "value": "U-0.28", "seen": "null", "basis": "document"}
    assert site.visitor(site.contractor).post(f"/houses/{house}/edit", form).status_code == 303
    code = site.stored(house).house.energy_code
    assert (code.window.typed, code.window.basis) == ("U-0.28", "document")
    assert (code.edition, code.window.value) == ("IECC 2021", pytest.approx(1.59, abs=0.01))


HUMIDITIES = {
    "shares": ("0.45 " * 12, 0.45),
    "commas": (", ".join(["45"] * 12), 0.45),
    "semicolons": (";".join(["45 %"] * 12), 0.45),
    "lines": ("\r\n".join(["45%"] * 12), 0.45),
    "one share": ("0.45", 0.45),
    "one of a hundred": ("45", 0.45),
    "one per cent sign": (" 45 % ", 0.45),
    "all there is": ("100", 1),
    "one": ("1", 1),
    "one per cent": ("1 %", 0.01),
}


@pytest.mark.parametrize(("text", "share"), HUMIDITIES.values(), ids=HUMIDITIES)
def test_humidities_are_read_as_people_write_them(site, house, text, share):
    assert answer(site, house, "indoor_humidity/relative_humidity", text).status_code == 303
    given = site.stored(house).house.as_stored()["indoor_humidity"]["relative_humidity"]
    assert [each["value"] for each in given] == [share] * 12


def test_the_way_to_write_humidities_is_said(site, house):
    page = shown(site, house)
    hint = page.text(page.field_of("indoor_humidity/relative_humidity").get("id") + "-hint")
    assert "blanks or commas" in hint
    assert "one figure means all year" in hint


def test_a_plain_number_is_an_inch_pound_limit_from_a_document(site, house):
    assert answer(site, house, "energy_code/frame_wall", "0.06").status_code == 303
    wall = site.stored(house).house.energy_code.frame_wall
    assert (wall.typed, wall.basis) == ("0.06 Btu/(hour*ft^2*delta_degF)", "document")
    seen = seen_text({"value": wall.typed, "basis": "document"})
    form = {"place": "energy_code/frame_wall", "page": "seen", "value": "0.06", "seen": seen}
    again = site.visitor(site.contractor).post(f"/houses/{house}/edit", form | {"basis": "guess"})
    assert again.status_code == 303
    assert site.stored(house).house.energy_code.frame_wall.basis == "guess"


def test_a_plain_number_is_no_limit_in_si(site, house):
    site.visitor(site.contractor).post("/units", {"units": "si", "return": "/houses"})
    response = answer(site, house, "energy_code/frame_wall", "0.34")
    assert response.status_code == 422
    page = Page.of(response)
    field = page.field_of("energy_code/frame_wall")
    assert (field.get("value"), field.get("aria-invalid")) == ("0.34", "true")
    assert "like U-0.060 or 0.34 W/(m²·K)" in page.text(field.get("id") + "-state")
    assert field.get("placeholder") == "0.26\xa0W/(m²·K)"


def test_the_limit_in_force_stands_where_none_is_typed(site, house):
    page = shown(site, house)  # zone 4A
    assert page.field_of("energy_code/window").get("placeholder") == "U-0.300"
    assert page.field_of("energy_code/shgc").get("placeholder") == "0.40"
    for name in LIMITS:
        hint = page.text(page.field_of(f"energy_code/{name}").get("id") + "-hint")
        assert name == "shgc" or "Like U-0.060 or 0.34 W/(m²·K)" in hint
    answer(site, house, "energy_code/edition", "IECC 2018")
    answer(site, house, "energy_code/skylight", "U-0.5")
    page = shown(site, house)
    assert page.field_of("energy_code/window").get("placeholder") == "U-0.320"
    assert page.field_of("energy_code/skylight").get("placeholder") == "U-0.550"


def test_wetness_stands_on_the_page_of_a_part(site, house):
    part = site.stored(house).house.components[0].key
    where, page = place_of("components", part, "wetness"), f"parts/{part}"
    assert answer(site, house, where, "damp", page=page).status_code == 303
    assert site.stored(house).house.components[0].wetness == "damp"
    text = well_formed(site.visitor(site.contractor).get(f"/houses/{house}/{page}"))
    assert "Dry or wet" in text
