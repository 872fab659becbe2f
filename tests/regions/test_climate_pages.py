"""The climate of a house: stations near a ZIP code, and weather files."""

import re

import pytest

from server.files import seeds
from server.regions.stations import stations
from server.regions.zip_places import NoSuchZip, stations_near, zip_place
from server.regions.zones import zone_by_degree_days
from tests.files.test_climate_csv import GREENSBORO, TWELVE
from tests.pages.test_open_a_house import well_formed
from tests.stored_houses import small_file


def climate(site, key):
    return site.stored(key).house.as_stored()["climate"]


def test_a_zip_code_lies_where_it_lies():
    place = zip_place("27401-1234")  # Greensboro, North Carolina
    assert place.latitude == pytest.approx(36.07, abs=0.1)
    assert place.longitude == pytest.approx(-79.77, abs=0.1)
    assert place.zone == "4A"
    near = stations_near(place)
    assert near[0].station.name.startswith("Piedmont Triad")
    assert near[0].distance_km < 25
    assert near[0].above is None
    assert [each.distance_km for each in near] == sorted(each.distance_km for each in near)


def test_height_counts_where_it_is_known():
    """Leadville, Colorado, lies at 3100 m: what is as high goes before what is nearer."""
    place = zip_place("80461")
    by_distance = stations_near(place)
    by_both = stations_near(place, 3100.0)
    assert abs(by_both[0].above) <= abs(by_distance[0].station.elevation - 3100.0)
    assert by_both[0].above == pytest.approx(by_both[0].station.elevation - 3100.0)


@pytest.mark.parametrize(
    ("typed", "malformed"), [("2740", True), ("abcde", True), ("00000", False)]
)
def test_what_is_no_zip_code(typed, malformed):
    with pytest.raises(NoSuchZip) as refused:
        zip_place(typed)
    assert refused.value.malformed == malformed


def test_from_a_zip_code_to_a_station(site):
    key = site.store(small_file())
    contractor = site.visitor(site.contractor)
    page = well_formed(contractor.get(f"/houses/{key}/climate?zip=60607&elevation=600 ft"))
    assert "Chicago" in page
    assert "zone 5A" in page
    assert "above the house" in page
    sent = {"station": "USW00094846", "zip": "60607"}
    assert contractor.post(f"/houses/{key}/climate/station", sent).status_code == 303
    assert climate(site, key) == {"station": "USW00094846", "iecc_zone": "5A"}
    page = well_formed(contractor.get(f"/houses/{key}/climate"))
    assert "Zone by the county map: 5A" in page
    assert contractor.post(f"/houses/{key}/climate/station", {"station": "x"}).status_code == 422


@pytest.mark.parametrize(
    ("query", "words"),
    [
        ("zip=1234", "five digits"),
        ("zip=00000", "is not known"),
        ("zip=60607&elevation=high", "No number can be read"),
    ],
)
def test_what_is_typed_wrongly_comes_back(site, query, words):
    key = site.store(small_file())
    answer = site.visitor(site.contractor).get(f"/houses/{key}/climate?{query}")
    assert answer.status_code == 422
    text = well_formed(answer)
    assert words in text
    for typed in query.replace("zip=", "").replace("elevation=", "").split("&"):
        assert f'value="{typed}"' in text


def test_from_a_typical_year_to_a_climate(site):
    key = site.store(small_file())
    files = {"file": ("year.csv", GREENSBORO.read_bytes())}
    answer = site.visitor(site.contractor).post(f"/houses/{key}/climate/file", files=files)
    assert answer.status_code == 303
    made = climate(site, key)
    assert made["name"].startswith("Greensboro")
    assert made["mean_temperature"][0]["basis"] == "document"
    well_formed(site.visitor(site.contractor).get(f"/houses/{key}/comparison"))


def test_what_a_file_does_not_tell_stays(site):
    key = site.store(small_file())
    before = small_file().as_stored()["climate"]
    files = {"file": ("months.csv", TWELVE.encode())}
    site.visitor(site.contractor).post(f"/houses/{key}/climate/file", files=files)
    made = climate(site, key)
    assert made["mean_temperature"][0]["value"] == "5 degC"
    assert "temperature_deviation" not in made  # it went with the temperatures
    if "horizontal_irradiation" in before:
        assert len(made["horizontal_irradiation"]) == 12


def test_a_bad_file_is_told_with_its_places_and_changes_nothing(site):
    key = site.store(small_file())
    before = climate(site, key)
    files = {"file": ("months.csv", TWELVE.replace("41", "warm").encode())}
    contractor, lead = site.visitor(site.contractor), site.visitor(site.lead)
    answer = contractor.post(f"/houses/{key}/climate/file", files=files)
    assert answer.status_code == 422
    assert "row 2, column mean_f: read “warm”" in well_formed(answer)
    assert climate(site, key) == before
    answer = lead.post("/regions/piedmont-nc/weather-file", files=files)
    assert answer.status_code == 422
    assert "row 2, column mean_f" in well_formed(answer)


def test_a_region_takes_a_file_and_finds_stations_by_zip(site):
    lead = site.visitor(site.lead)
    page = well_formed(lead.get("/regions/piedmont-nc/stations?zip=27401"))
    assert "Piedmont Triad" in page
    files = {"file": ("year.csv", GREENSBORO.read_bytes())}
    version = {"version": "1"}
    answer = lead.post("/regions/piedmont-nc/weather-file", data=version, files=files)
    assert answer.status_code == 303
    assert "Greensboro" in well_formed(lead.get("/regions/piedmont-nc"))


def test_a_weather_file_from_a_page_that_is_old_changes_nothing(site):
    lead = site.visitor(site.lead)
    form = well_formed(lead.get("/regions/piedmont-nc/months"))
    assert form.count('name="version" value="1"') == 2
    newer = {"version": "1", "station": sorted(stations())[0]}
    assert lead.post("/regions/piedmont-nc/stations", data=newer).status_code == 303
    stands = lead.get("/regions/piedmont-nc").text
    files = {"file": ("year.csv", GREENSBORO.read_bytes())}
    answer = lead.post("/regions/piedmont-nc/weather-file", data={"version": "1"}, files=files)
    assert answer.status_code == 422
    assert "changed meanwhile" in well_formed(answer)
    assert lead.get("/regions/piedmont-nc").text == stands


def test_a_station_lower_than_the_house_is_said_to_be_below_it(site):
    key = site.store(small_file())
    contractor = site.visitor(site.contractor)
    page = well_formed(contractor.get(f"/houses/{key}/climate?zip=27401&elevation=3000 ft"))
    assert "ft below the house" in page
    assert not re.search(r"[-−][0-9]+ ft (above|below) the house", page)


def test_a_house_begins_at_its_zip_code(site):
    contractor = site.visitor(site.contractor)
    begin = {"name": "9 Example Road", "region": "piedmont-nc", "zip": "60607"}
    made = contractor.post("/houses", begin)
    key = made.headers["location"].rsplit("/", 1)[1]
    assert climate(site, key)["iecc_zone"] == "5A"
    wrong = contractor.post("/houses", begin | {"zip": "6060"})
    assert wrong.status_code == 422
    assert "five digits" in well_formed(wrong)
    assert 'value="6060"' in wrong.text


def test_zones_by_degree_days():
    assert zone_by_degree_days(seeds.station_climate("USW00012839")) in (0, 1)  # Miami
    assert zone_by_degree_days(seeds.station_climate("USW00014922")) in (5, 6)  # Minneapolis
