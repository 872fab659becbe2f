"""The pages of regions: who sees what, what is saved, what comes back."""

import html

import pytest

from server.pages.regions.forms import values_of
from server.pages.regions.months_form import month_values
from server.regions.defaults import seed_regions
from server.storage.regions import Regions
from tests.pages.test_bad_input import Page
from tests.pages.test_open_a_house import well_formed
from tests.stored_houses import small_file

KEY = "piedmont-nc"
HOSTILE = "<script>alert('x')</script> & \"q\""


def load(site, key=KEY, firm=None):
    with site.database.session(writing=False) as session:
        return Regions(session, firm or site.firm, site.clock).load(key)


def form(**changes):
    given = {name.replace("__", "-"): text for name, text in changes.items()}
    return values_of(seed_regions()[KEY]) | {"version": "1"} | given


def months(**changes):
    given = {name.replace("__", "-"): text for name, text in changes.items()}
    return month_values(seed_regions()[KEY]) | {"version": "1"} | given


LEAD_PAGES = [f"/regions/{KEY}{path}" for path in ("", "/stations", "/stations?q=ohio", "/months")]


def test_everybody_reads_and_only_a_lead_sees_the_way_to_forms(site):
    for person, sees in ((site.contractor, False), (site.lead, True), (site.stranger, True)):
        text = well_formed(site.visitor(person).get("/regions"))
        assert "Piedmont of North Carolina" in text
        assert (f'href="/regions/{KEY}"' in text) == sees
        assert ('action="/regions"' in text) == sees
    assert site.visitor().get("/regions").status_code == 303


@pytest.mark.parametrize("path", LEAD_PAGES)
def test_pages_of_the_lead(site, path):
    well_formed(site.visitor(site.lead).get(path))
    assert site.visitor(site.contractor).get(path).status_code == 403
    assert site.visitor().get(path).status_code == 303


@pytest.mark.parametrize(
    ("path", "sent"), [("", form()), ("/months", months()), ("/stations", {"station": "x"})]
)
def test_a_contractor_changes_nothing(site, path, sent):
    answer = site.visitor(site.contractor).post(f"/regions/{KEY}{path}", sent)
    assert answer.status_code == 403
    assert load(site).version == 1


@pytest.mark.parametrize("path", ["", "/stations", "/months"])
def test_a_region_that_is_not_there_is_gone(site, path):
    assert site.visitor(site.lead).get(f"/regions/nowhere{path}").status_code == 404
    assert site.visitor(site.lead).post(f"/regions/nowhere{path}", form()).status_code == 404


def test_a_change_is_a_new_version_and_leaves_houses_and_other_firms_alone(site):
    house = site.store(small_file())
    before = site.stored(house)
    sent = form(**{"price-0": "1.77 USD/therm", "price-0-basis": "document", "walls": "0.22"})
    answer = site.visitor(site.lead).post(f"/regions/{KEY}", sent)
    assert answer.headers["location"] == f"/regions#{KEY}"
    now = load(site)
    assert (now.version, now.by) == (2, site.lead.name)
    written = now.defaults.as_written()
    assert written["prices"]["natural gas"] == {"value": "1.77 USD/therm", "basis": "document"}
    assert written["framing_fractions"]["walls"] == {"value": 0.22, "basis": "default"}
    assert load(site, firm=site.other_firm).version == 1
    after = site.stored(house)
    assert (after.version, after.house.as_stored()) == (before.version, before.house.as_stored())
    assert "1.77 USD/therm (document)" in well_formed(site.visitor(site.contractor).get("/regions"))


def test_saving_without_a_change_makes_no_version(site):
    assert site.visitor(site.lead).post(f"/regions/{KEY}", form()).status_code == 303
    assert load(site).version == 1


def test_fuels_are_added_and_taken_away(site):
    sent = form(**{"fuel-4": "wood", "price-4": "0.05 USD/kWh", "price-1": "", "carbon-1": ""})
    assert site.visitor(site.lead).post(f"/regions/{KEY}", sent).status_code == 303
    prices = load(site).defaults.prices
    assert "propane" not in prices
    assert prices["wood"].typed == "0.05 USD/kWh"


def test_a_stale_form_is_kept_and_said(site):
    lead = site.visitor(site.lead)
    lead.post(f"/regions/{KEY}", form(note="first"))
    answer = lead.post(f"/regions/{KEY}", form(note="second"))
    assert answer.status_code == 422
    text = well_formed(answer)
    assert "changed meanwhile" in text
    assert "now.</span>" in text  # what stands now is said beside the field
    assert "second</textarea>" in text
    assert load(site).defaults.note == "first"
    assert lead.post(f"/regions/{KEY}", form(note="second", version="2")).status_code == 303


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("name", ""),
        ("name", "n" * 201),
        ("films", "thick"),
        ("heating", "70"),
        ("heating", "80 degF"),
        ("heating", "nan degF"),
        ("cooling", ""),
        ("cooling", "9**9**9 degF"),
        ("walls", "a quarter"),
        ("walls", "1.5"),
        ("floors", "inf"),
        ("roofs_and_ceilings", "-0.1"),
        ("roofs_and_ceilings", "1_0"),
        ("price-0", "1.40 USD"),
        ("price-0", "-1 USD/therm"),
        ("price-0", "9999999 USD/kWh"),
        ("carbon-3", "1,2 kg/kWh"),
        ("fuel-1", "natural gas"),
        ("price-5", "1 USD/kWh"),
        ("heating", HOSTILE),
        ("humidity_class", "6"),
        ("humidity_class", HOSTILE),
        ("relative_humidity", "0.45 0.46"),
        ("relative_humidity", "450"),
        ("edition", "IECC 1066"),
        ("edition", ""),
        ("limit-window", "R-13"),
        ("limit-ceiling", "0 W/(m^2*K)"),
        ("limit-shgc", "7"),
        ("limit-shgc", "a third"),
    ],
)
def test_bad_input_comes_back_beside_its_field(site, field, text):
    limits = {"limit-floor": "U-0.05"} if field == "edition" else {}
    answer = site.visitor(site.lead).post(f"/regions/{KEY}", form(**{field: text} | limits))
    assert answer.status_code == 422
    page = well_formed(answer)
    at = {"price-5": "fuel-5"}.get(field, field)
    if text == "80 degF":
        at = "cooling"
    assert f'id="{at}-note"' in page
    assert f'href="#{at}"' in page
    if field != "films":
        assert (
            f'value="{html.escape(text).replace("&#x27;", "&#39;").replace("&quot;", "&#34;")}"'
            in page
        )
    assert HOSTILE not in page
    assert load(site).version == 1


@pytest.mark.parametrize("sent", [{}, {"name": "x\0y"}, {"fuel-0": "\0"}, {"version": "2"}])
def test_broken_forms_are_answered(site, sent):
    assert site.visitor(site.lead).post(f"/regions/{KEY}", sent).status_code == 422


def test_stations_show_distance_and_elevation_and_one_is_taken(site):
    lead = site.visitor(site.lead)
    text = well_formed(lead.get(f"/regions/{KEY}/stations", params={"q": "Asheville"}))
    assert "away" in text
    assert "above it" in text
    assert 'value="USW00003812"' in text
    sent = {"station": "USW00003812", "version": "1", "q": "Asheville"}
    assert lead.post(f"/regions/{KEY}/stations", sent).status_code == 303
    assert load(site).defaults.climate.station == "USW00003812"
    stale = lead.post(f"/regions/{KEY}/stations", sent | {"station": "USW00013723"})
    assert stale.status_code == 422
    assert "changed meanwhile" in well_formed(stale)


@pytest.mark.parametrize("station", ["", "nowhere", HOSTILE])
def test_no_station_is_refused(site, station):
    sent = {"station": station, "version": "1"}
    answer = site.visitor(site.lead).post(f"/regions/{KEY}/stations", sent)
    assert answer.status_code == 422
    assert HOSTILE not in well_formed(answer)


@pytest.mark.parametrize("search", ["", "zzz", HOSTILE, "x" * 5000, "\x00"])
def test_any_search_is_answered(site, search):
    answer = site.visitor(site.lead).get(f"/regions/{KEY}/stations", params={"q": search})
    assert answer.status_code == 200
    assert HOSTILE not in well_formed(answer)


def test_twelve_months_of_ones_own(site):
    lead = site.visitor(site.lead)
    sent = months(name="Ridge top", mean_temperature__0="30", wind_speed__2="9 mph")
    sent |= {"unit-mean_temperature": "degF", **{f"humidity_ratio-{n}": "" for n in range(12)}}
    assert lead.post(f"/regions/{KEY}/months", sent).status_code == 303
    climate = load(site).defaults.climate
    assert (climate.name, climate.humidity_ratio) == ("Ridge top", None)
    assert climate.mean_temperature[0].typed == "30 degF"
    assert climate.wind_speed[2].typed == "9 mph"
    assert climate.wind_speed[2].basis == "document"
    text = well_formed(lead.get(f"/regions/{KEY}/months"))
    assert 'value="30 degF"' in text
    assert "twelve months of your own" in well_formed(lead.get(f"/regions/{KEY}"))


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("name", ""),
        ("latitude", "95"),
        ("latitude", "north"),
        ("elevation", "890"),
        ("elevation", "99999 m"),
        ("mean_temperature-3", ""),
        ("mean_temperature-3", "999"),
        ("mean_temperature-11", "5 m"),
        ("horizontal_irradiation-0", "-4"),
        ("wind_speed-5", "1e9"),
        ("wind_speed-5", "nan"),
        ("humidity_ratio-6", ""),
        ("humidity_ratio-6", "900"),
        ("temperature_deviation-0", "4 degC"),
        ("cooling_daily_range", "20"),
        ("name", HOSTILE * 10),
    ],
)
def test_bad_months_come_back_beside_their_field(site, field, text):
    answer = site.visitor(site.lead).post(f"/regions/{KEY}/months", months(**{field: text}))
    assert answer.status_code == 422
    page = well_formed(answer)
    assert f'id="{field}-note"' in page
    assert HOSTILE not in page
    assert load(site).version == 1


def test_a_house_shows_what_a_refresh_would_change_and_takes_it(site):
    house = site.store(small_file())
    visitor = site.visitor(site.contractor)
    text = well_formed(visitor.get(f"/houses/{house}/region?to={KEY}"))
    assert "Price · natural gas: " in text
    assert "70 degF → 70 degF" not in text
    assert site.stored(house).version == 1
    sent = {"to": KEY, "version": "1", "seen": "1"}
    answer = visitor.post(f"/houses/{house}/region", sent)
    assert (answer.status_code, answer.headers["location"]) == (303, f"/houses/{house}")
    stored = site.stored(house)
    assert stored.version == 2
    assert stored.house.climate.station == seed_regions()[KEY].climate.station
    assert "Nothing would change" in visitor.get(f"/houses/{house}/region?to={KEY}").text


def test_a_refresh_is_of_what_was_shown(site):
    house = site.store(small_file())
    site.visitor(site.lead).post(f"/regions/{KEY}", form(heating="68 degF"))
    visitor = site.visitor(site.contractor)
    for sent in ({"version": "1", "seen": "1"}, {"version": "2", "seen": "0"}, {}):
        answer = visitor.post(f"/houses/{house}/region", {"to": KEY, **sent})
        assert answer.status_code == 422
        assert "68 degF" in well_formed(answer)
    assert site.stored(house).version == 1


def test_houses_and_regions_of_others_are_gone(site):
    house = site.store(small_file())
    path = f"/houses/{house}/region"
    assert site.visitor(site.stranger).get(path).status_code == 404
    assert site.visitor(site.stranger).post(path, {"to": KEY}).status_code == 404
    assert site.visitor(site.contractor).get(f"{path}?to=nowhere").status_code == 404
    assert site.visitor(site.contractor).post(path, {"to": "nowhere"}).status_code == 404
    assert site.visitor().get(path).status_code == 303
    well_formed(site.visitor(site.contractor).get(path))


def test_a_house_that_does_not_take_them_says_why(site):
    document = small_file().as_written()
    document["set_points"] = {"heating": {"value": "76 degF", "basis": "measured"}}
    document["set_points"]["cooling"] = "80 degF"
    house = site.store(type(small_file()).model_validate(document))
    visitor = site.visitor(site.contractor)
    assert "does not take" in well_formed(visitor.get(f"/houses/{house}/region?to={KEY}"))
    sent = {"to": KEY, "version": "1", "seen": "1"}
    assert visitor.post(f"/houses/{house}/region", sent).status_code == 422
    assert site.stored(house).version == 1


def test_a_region_of_ones_own_begins_houses(site):
    lead = site.visitor(site.lead)
    added = lead.post("/regions", {"name": "Hill country", "like": "twin-cities-mn"})
    assert added.headers["location"] == "/regions/hill-country"
    well_formed(lead.get("/regions/hill-country"))
    begin = {"name": "12 Example Street", "region": "hill-country"}
    assert "Hill country" in well_formed(site.visitor(site.contractor).get("/houses/new"))
    made = site.visitor(site.contractor).post("/houses", begin)
    document = site.stored(made.headers["location"].rsplit("/", 1)[1]).house.as_stored()
    assert document["defaults"] == {"region": "hill-country", "version": 1}
    copied = load(site, "twin-cities-mn").defaults.as_written()
    assert document["climate"]["station"] == copied["climate"]["station"]
    key = made.headers["location"].rsplit("/", 1)[1]
    contractor = site.visitor(site.contractor)
    assert "Hill country" in well_formed(contractor.get(f"/houses/{key}/systems"))
    assert "Newer defaults exist" not in well_formed(contractor.get(f"/houses/{key}"))
    again = form(name="Hill country", heating="66 degF")
    assert lead.post("/regions/hill-country", again).status_code == 303
    assert "Newer defaults exist" in well_formed(contractor.get(f"/houses/{key}"))
    other = site.visitor(site.stranger).post("/houses", begin)
    assert other.status_code == 422
    assert "Choose the region" in well_formed(other)


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({"name": "", "like": KEY}, "A name of 1 to"),
        ({"name": "x" * 101, "like": KEY}, "A name of 1 to"),
        ({"name": "Mine", "like": "nowhere"}, "Choose the region"),
        ({"name": "piedmont nc", "like": KEY}, "of this name already"),
    ],
)
def test_a_region_that_cannot_be_added_comes_back_as_typed(site, sent, words):
    answer = site.visitor(site.lead).post("/regions", sent)
    assert answer.status_code == 422
    text = well_formed(answer)
    assert words in text
    assert html.escape(sent["name"]) in text
    assert site.visitor(site.contractor).post("/regions", sent).status_code == 403


# Humidity indoors and the energy code

SHARES = [f"0.4{month % 10}" for month in range(12)]


def test_a_class_a_code_and_its_limits_are_saved(site):
    lead = site.visitor(site.lead)
    sent = form(humidity_class="2", edition="IECC 2018") | {
        "limit-window": "U-0.28",
        "limit-window-basis": "document",
        "limit-shgc": "40%",
    }
    assert lead.post(f"/regions/{KEY}", sent).status_code == 303
    written = load(site).defaults.as_written()
    assert written["indoor_humidity"] == {"humidity_class": 2}
    assert written["energy_code"] == {
        "edition": "IECC 2018",
        "window": {"value": "U-0.28", "basis": "document"},
        "shgc": {"value": 0.4, "basis": "document"},
    }
    text = well_formed(lead.get(f"/regions/{KEY}"))
    assert 'value="U-0.28"' in text
    assert '<option value="2" selected>' in text
    facts = well_formed(site.visitor(site.contractor).get("/regions"))
    assert "Windows, U at most: U-0.28 (document)" in facts
    assert "Energy code: IECC 2018" in facts


def test_twelve_humidities_stand_in_place_of_a_class(site):
    lead = site.visitor(site.lead)
    sent = form(humidity_class="", relative_humidity=", ".join(SHARES))
    sent["relative_humidity-basis"] = "document"
    assert lead.post(f"/regions/{KEY}", sent).status_code == 303
    given = load(site).defaults.indoor_humidity
    assert given.humidity_class is None
    assert [each.value for each in given.relative_humidity[:3]] == [0.4, 0.41, 0.42]
    assert {each.basis for each in given.relative_humidity} == {"document"}
    assert 'value="0.4 0.41 0.42' in well_formed(lead.get(f"/regions/{KEY}"))
    now = values_of(load(site).defaults) | {"version": "2"}
    assert lead.post(f"/regions/{KEY}", now).status_code == 303
    assert load(site).version == 2  # nothing had changed


@pytest.mark.parametrize("text", ["45", "45 %", "0.45", " ".join(["45%"] * 12)])
def test_humidities_are_read_as_on_the_page_of_a_house(site, text):
    sent = form(humidity_class="", relative_humidity=text)
    assert site.visitor(site.lead).post(f"/regions/{KEY}", sent).status_code == 303
    written = load(site).defaults.as_written()
    assert written["indoor_humidity"] == {"relative_humidity": [0.45] * 12}


def test_months_that_are_too_moist_are_named_and_nothing_is_lost(site):
    for wrong in ("450", "damp", "-0.1"):
        text = " ".join([*SHARES[:7], wrong, *SHARES[8:]])
        sent = form(humidity_class="", relative_humidity=text)
        answer = site.visitor(site.lead).post(f"/regions/{KEY}", sent)
        assert answer.status_code == 422
        page = Page.of(answer)
        said = f"August: “{wrong}” is not 1 to 100 %, or 0.01 to 1."
        assert said in page.text("relative_humidity-note")
        assert f"Relative humidity: {said}" in page.text("faults")
        assert page.by_id("relative_humidity").get("value") == text
    assert load(site).version == 1


def test_all_that_is_wrong_is_said_at_once_in_words_for_people(site):
    wrong = form(humidity_class="2", edition="IECC 2018", relative_humidity="damp", heating="70")
    wrong |= {"limit-frame_wall": "R-13", "limit-ceiling": "U-0", "price-0": "cheap"}
    answer = site.visitor(site.lead).post(f"/regions/{KEY}", wrong)
    assert answer.status_code == 422
    page = Page.of(answer)
    said = page.text("faults")
    for label in (
        *("Framed walls, U at most", "Ceilings and roofs, U at most", "Relative humidity"),
        *("Heating set point", "Price, natural gas", "Humidity class"),
    ):
        assert f"{label}: " in said
    assert page.by_id("faults").get("tabindex") == "-1"
    for name in ("limit-frame_wall", "limit-ceiling", "relative_humidity", "heating", "price-0"):
        assert page.by_id(name).get("value") == wrong[name]
        assert f"#{name}" in page.links()


def test_a_month_of_ones_own_that_is_wrong_is_named(site):
    sent = months(**{"wind_speed-2": "fast"})
    page = Page.of(site.visitor(site.lead).post(f"/regions/{KEY}/months", sent))
    assert "Wind speed, March: " in page.text("faults")


def test_a_plain_limit_takes_the_units_of_who_reads(site):
    lead = site.visitor(site.lead)
    sent = form(edition="IECC 2021") | {"limit-frame_wall": "0.06"}
    assert lead.post(f"/regions/{KEY}", sent).status_code == 303
    written = load(site).defaults.as_written()["energy_code"]["frame_wall"]
    assert written == {"value": "0.06 Btu/(hour*ft^2*delta_degF)", "basis": "document"}
    field = Page.of(lead.get(f"/regions/{KEY}")).by_id("limit-window")
    assert field.get("placeholder") == "U-0.300"
    lead.post("/units", {"units": "si", "return": "/regions"})
    answer = lead.post(f"/regions/{KEY}", sent | {"version": "2", "limit-frame_wall": "0.34"})
    assert answer.status_code == 422
    note = Page.of(answer).text("limit-frame_wall-note")
    assert "like U-0.060 or 0.34 W/(m²·K)" in note


def test_without_class_and_code_a_region_gives_none(site):
    sent = form(humidity_class="", edition="")
    assert site.visitor(site.lead).post(f"/regions/{KEY}", sent).status_code == 303
    defaults = load(site).defaults
    assert defaults.indoor_humidity is defaults.energy_code is None


def test_what_a_refresh_would_change_is_told_by_the_names_of_the_fields(site):
    house = site.store(small_file())
    sent = form(edition="IECC 2018", humidity_class="", relative_humidity="45") | {
        "limit-frame_wall": "0.06"
    }
    assert site.visitor(site.lead).post(f"/regions/{KEY}", sent).status_code == 303
    text = well_formed(site.visitor(site.contractor).get(f"/houses/{house}/region?to={KEY}"))
    for line in (
        "Energy code · Edition: nothing → IECC 2018",
        "Energy code · Framed walls, U at most: nothing → 0.06 Btu/(h·ft²·°F) (default)",
        "Humidity indoors · Relative humidity: nothing → 0.45 (default), all year",
    ):
        assert f"<li>{line}</li>" in text
