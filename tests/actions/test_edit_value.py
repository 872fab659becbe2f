"""One value is edited: what was seen, who wrote meanwhile, and what goes with it."""

import pytest

from server.actions.edit_value import Conflict, Edit, edit_value
from server.actions.renaming import NameInUse
from server.files.faults import BadFile
from server.files.keyed import Gone, place_of, value_at
from server.storage.houses import NoSuchHouse
from tests.accounts.site import MovedClock
from tests.actions.documents import place
from tests.databases import sqlite_database
from tests.stored_houses import Firm, changed_file, demo_file, small_file


@pytest.fixture
def firm(tmp_path):
    database = sqlite_database(tmp_path)
    yield Firm(database, MovedClock())
    database.close()


@pytest.fixture
def key(firm):
    return firm.add(part_of_the_demo())


def part_of_the_demo():
    """A few components of the demo house and its first strategy."""
    kept = {
        *("east wall", "south wall", "side door", "upper floor", "upper ceiling"),
        *("basement floor", "floor over the basement"),
    }

    def change(document):
        document["components"] = [each for each in document["components"] if each["name"] in kept]
        del document["strategies"][1:]
        strategy = document["strategies"][0]
        strategy["changes"] = {
            target: each
            for target, each in strategy["changes"].items()
            if target in kept | {"ceiling"}
        }

    return changed_file(demo_file(), change)


def document_of(firm, key):
    return firm.load(key).house.as_stored()


def edit(firm, key, where, value, *seen, by="Cory Invented"):
    """Edit a place that was seen as given, or else as it stands."""
    if not seen:
        document = document_of(firm, key)
        try:
            seen = (value_at(document, where),)
        except Gone:
            seen = (None,)
    with firm.houses() as houses:
        return edit_value(houses, key, Edit(where, seen, value), by)


def test_an_edit_is_saved_as_typed(firm, key):
    changed = edit(firm, key, "floor_area", {"value": "1500 ft^2", "basis": "guess"})
    assert changed.version == 2
    assert document_of(firm, key)["floor_area"] == {"value": "1500 ft^2", "basis": "guess"}
    assert changed.before.house.as_written()["floor_area"]["value"] == "1430 ft^2"
    assert changed.survey.house.floor_area == pytest.approx(139.35, abs=0.01)


def test_the_same_value_again_is_no_new_version(firm, key):
    value = document_of(firm, key)["floor_area"]
    assert edit(firm, key, "floor_area", value).version == 1


# Somebody else meanwhile


def test_a_field_that_changed_meanwhile_is_a_conflict(firm, key):
    seen = document_of(firm, key)["floor_area"]
    edit(firm, key, "floor_area", "1500 ft^2", by="Lee Invented")
    with pytest.raises(Conflict) as conflict:
        edit(firm, key, "floor_area", "1600 ft^2", seen)
    assert conflict.value.theirs == conflict.value.theirs_text == "1500 ft^2"
    assert document_of(firm, key)["floor_area"] == "1500 ft^2"
    assert edit(firm, key, "floor_area", "1600 ft^2", "1500 ft^2").version == 3


def test_another_field_that_changed_is_none(firm, key):
    document = document_of(firm, key)
    area = place(document, "components", "east wall", "area")
    azimuth = place(document, "components", "east wall", "azimuth")
    seen = value_at(document, area)
    edit(firm, key, azimuth, "91 deg", by="Lee Invented")
    edit(firm, key, area, "100 ft^2", seen)
    after = document_of(firm, key)
    assert (value_at(after, azimuth), value_at(after, area)) == ("91 deg", "100 ft^2")


def test_who_wrote_the_same_is_no_conflict(firm, key):
    seen = document_of(firm, key)["floor_area"]
    edit(firm, key, "floor_area", "1500 ft^2", by="Lee Invented")
    assert edit(firm, key, "floor_area", "1500 ft^2", seen).version == 2


def test_a_basis_alone_that_changed_is_a_conflict(firm, key):
    seen = document_of(firm, key)["floor_area"]
    edit(firm, key, "floor_area", seen | {"basis": "guess"}, by="Lee Invented")
    with pytest.raises(Conflict) as conflict:
        edit(firm, key, "floor_area", "1600 ft^2", seen)
    assert conflict.value.theirs_text == "1430 ft^2 (guess)"


def test_what_the_page_sent_since_counts_as_seen(firm, key):
    seen = document_of(firm, key)["floor_area"]
    edit(firm, key, "floor_area", "1500 ft^2", seen)
    edit(firm, key, "floor_area", "1510 ft^2", seen, "1500 ft^2")
    edit(firm, key, "floor_area", "1520 ft^2", seen, "1500 ft^2", "1510 ft^2")
    assert document_of(firm, key)["floor_area"] == "1520 ft^2"


def test_a_value_taken_away_meanwhile_is_a_conflict_too(firm, key):
    where = place(document_of(firm, key), "components", "east wall", "azimuth")
    seen = value_at(document_of(firm, key), where)
    edit(firm, key, where, None, by="Lee Invented")
    with pytest.raises(Conflict) as conflict:
        edit(firm, key, where, "91 deg", seen)
    assert conflict.value.theirs_text is None


def test_a_name_that_changed_meanwhile_is_a_conflict(firm, key):
    where = place(document_of(firm, key), "spaces", "basement", "name")
    edit(firm, key, where, "cellar", "basement")
    with pytest.raises(Conflict) as conflict:
        edit(firm, key, where, "crawl space", "basement")
    assert conflict.value.theirs == "cellar"
    assert list(document_of(firm, key)["spaces"])[-1] == "cellar"


def test_an_edit_finds_a_part_that_was_renamed_and_moved(firm, key):
    document = document_of(firm, key)
    area = place(document, "components", "east wall", "area")
    edit(firm, key, place(document, "components", "east wall", "name"), "wall on the east")
    firm.change(key, lambda changed: changed["components"].reverse())
    edit(firm, key, area, "100 ft^2", value_at(document, area))
    found = [each for each in document_of(firm, key)["components"] if each["area"] == "100 ft^2"]
    assert [each["name"] for each in found] == ["wall on the east"]


def test_a_part_that_was_removed_is_gone(firm, key):
    where = place(document_of(firm, key), "components", "upper floor", "area")
    firm.change(
        key,
        lambda changed: changed.update(
            components=[c for c in changed["components"] if c["name"] != "upper floor"]
        ),
    )
    with pytest.raises(Gone):
        edit(firm, key, where, "100 ft^2", "1 ft^2")
    assert firm.load(key).version == 2


# Alternatives


def test_one_leakage_stands_for_the_others(firm, key):
    for field, value in (("cfm50", "2400 cfm"), ("air_changes", "0.5 1/hour"), ("ach50", 7)):
        edit(firm, key, f"air/{field}", value)
        air = document_of(firm, key)["air"]
        assert {name for name in ("cfm50", "air_changes", "ach50") if name in air} == {field}


def test_one_leakage_of_a_strategy_stands_for_the_others(firm, key):
    strategy = document_of(firm, key)["strategies"][0]["key"]
    edit(firm, key, place_of("strategies", strategy, "cfm50"), "1200 cfm")
    after = document_of(firm, key)["strategies"][0]
    assert after["cfm50"] == "1200 cfm"
    assert "ach50" not in after


def test_a_u_value_stands_for_an_assembly_and_back(firm, key):
    document = document_of(firm, key)
    steps = "components", "side door"
    assembly = value_at(document, place(document, *steps, "assembly"))
    edit(firm, key, place(document, *steps, "u_value"), "0.3 Btu/(hour*ft^2*delta_degF)")
    assert value_at(document_of(firm, key), place(document, *steps, "assembly")) is None
    edit(firm, key, place(document, *steps, "assembly"), assembly)
    assert value_at(document_of(firm, key), place(document, *steps, "u_value")) is None


def test_soil_and_its_conductivity_stand_for_each_other(firm, key):
    document = document_of(firm, key)
    where = place(document, "components", "basement floor", "soil")
    edit(firm, key, where, "sand")
    edit(firm, key, f"{where}_conductivity", "1.8 W/(m*K)")
    assert value_at(document_of(firm, key), where) is None


@pytest.mark.parametrize("file", [demo_file, small_file])
def test_a_station_stands_for_a_region_and_a_climate_of_ones_own(firm, file):
    key = firm.add(file())
    edit(firm, key, "climate/region", "piedmont-nc")
    assert document_of(firm, key)["climate"] == {"region": "piedmont-nc"}


def test_a_value_of_an_own_climate_leaves_the_others(firm):
    key = firm.add(small_file())
    before = document_of(firm, key)["climate"]
    edit(firm, key, "climate/elevation", "300 m")
    edit(firm, key, "climate/name", "another invented climate")
    assert document_of(firm, key)["climate"] == before | {
        "elevation": "300 m",
        "name": "another invented climate",
    }


def test_an_empty_alternative_takes_nothing_away(firm, key):
    edit(firm, key, "air/cfm50", None)
    assert "ach50" in document_of(firm, key)["air"]
    with pytest.raises(BadFile):
        edit(firm, key, "air/ach50", None)


# What is not there yet


def test_a_value_in_what_is_not_there_yet(firm):
    def bare(document):
        for name in ("prices", "carbon", "cooling"):
            document.pop(name, None)
        document["air"].pop("ventilation")
        for strategy in document["strategies"]:
            for name in ("psi", "ventilation", "openings"):
                strategy.pop(name, None)

    key = firm.add(changed_file(small_file(), bare))
    document = document_of(firm, key)
    strategy = document["strategies"][0]["key"]
    junction = document["junctions"][0]["name"]
    places = {
        "air/ventilation/flow": "60 cfm",
        "prices/natural gas": "1.5 USD/therm",
        "carbon/natural gas": "0.2 kg/kWh",
        place_of("strategies", strategy, "psi", junction): "0.1 W/(m*K)",
        place_of("strategies", strategy, "ventilation", "flow"): "80 cfm",
    }
    for where in places:
        assert edit(firm, key, where, None, None).version == 1
    for number, (where, value) in enumerate(places.items(), start=2):
        assert edit(firm, key, where, value, None).version == number
        assert value_at(document_of(firm, key), where) == value


def test_a_part_that_never_was_is_not_begun(firm, key):
    strategy = document_of(firm, key)["strategies"][0]["key"]
    for where in (
        f"spaces/{'0' * 32}/volume",
        f"assemblies/{'0' * 32}/u_value",
        f"materials/{'0' * 32}/conductivity",
        f"components/{'0' * 32}/area",
        f"strategies/{'0' * 32}/ach50",
        f"strategies/{strategy}/changes/floor over the basement/outside/{'0' * 32}/thickness",
    ):
        with pytest.raises(Gone):
            edit(firm, key, where, "3 m", None)
    assert firm.load(key).version == 1


# What is refused


def test_what_makes_a_bad_house_is_not_saved(firm, key):
    document = document_of(firm, key)
    for where, value in (
        ("floor_area", "-3 ft^2"),
        ("floor_area", None),
        ("bedrooms", "three"),
        ("films", "none such"),
        ("climate/region", "nowhere"),
        (place(document, "components", "east wall", "assembly"), "no such assembly"),
        (place(document, "components", "east wall", "to"), "no such space"),
        (place(document, "components", "east wall", "name"), None),
        (place(document, "components", "east wall", "name"), "south wall"),
        (place(document, "spaces", "basement", "name"), "outdoors"),
        (place(document, "spaces", "basement", "name"), None),
    ):
        seen = ("basement",) if "spaces" in where else ()
        with pytest.raises(BadFile) as refusal:
            edit(firm, key, where, value, *seen)
        assert refusal.value.faults
    assert document_of(firm, key) == document
    assert firm.load(key).version == 1


def test_a_name_in_use_is_refused(firm, key):
    where = place(document_of(firm, key), "spaces", "basement", "name")
    with pytest.raises(NameInUse):
        edit(firm, key, where, "upper attic", "basement")
    assert firm.load(key).version == 1


def test_a_strategy_that_no_longer_fits_stops_no_survey(firm, key):
    document = document_of(firm, key)
    where = place(document, "components", "east wall", "assembly")
    changed = edit(firm, key, where, "side door")
    assert changed.version == 2
    assert any("strategies" in fault.place for fault in changed.survey.faults)


def test_a_house_that_is_not_there(firm):
    with pytest.raises(NoSuchHouse):
        edit(firm, "0" * 32, "floor_area", "1 m^2", None)


def test_screws_through_a_layer_come_and_go(firm, key):
    document = document_of(firm, key)
    wall = document["assemblies"]["main wall as found"]
    layer = place_of("assemblies", wall["key"], "layers", wall["layers"][0]["key"], "fasteners")
    edit(firm, key, f"{layer}/per_area", "0.56 per ft^2")
    edit(firm, key, f"{layer}/cross_section", "0.03 in^2")
    edit(firm, key, f"{layer}/diameter", "0.19 in")
    fasteners = document_of(firm, key)["assemblies"]["main wall as found"]["layers"][0]["fasteners"]
    assert fasteners == {"per_area": "0.56 per ft^2", "diameter": "0.19 in"}
    with pytest.raises(BadFile):
        edit(firm, key, f"{layer}/recess", "3 in")
    edit(firm, key, f"{layer}/diameter", None)
    edit(firm, key, f"{layer}/per_area", None)
    assert (
        "fasteners" not in document_of(firm, key)["assemblies"]["main wall as found"]["layers"][0]
    )


def test_screws_of_an_assembly_that_is_gone(firm, key):
    with pytest.raises(Gone):
        edit(firm, key, f"assemblies/{'0' * 32}/layers/{'1' * 32}/fasteners/per_area", "1 per ft^2")


# What was seen, humidity indoors, the energy code


@pytest.mark.parametrize(
    ("where", "value"),
    [
        ("seen/gutters", "leaking"),
        ("seen/flues_through_attic", False),
        ("indoor_humidity/humidity_class", 2),
        ("indoor_humidity/relative_humidity", [0.4] * 12),
        ("energy_code/edition", "IECC 2018"),
        ("energy_code/window", "0.3 Btu/(hour*ft^2*delta_degF)"),
    ],
)
def test_an_answer_comes_and_goes_and_leaves_nothing_empty(firm, key, where, value):
    section, field = where.split("/")
    firm.change(key, lambda document: document.pop(section, None))
    before = document_of(firm, key)
    assert section not in before
    edit(firm, key, where, value, None)
    assert document_of(firm, key)[section] == {field: value}
    edit(firm, key, where, None)
    assert document_of(firm, key) == before


def test_a_class_of_humidity_and_twelve_months_stand_for_each_other(firm, key):
    shares = [0.4, {"value": 0.5, "basis": "measured"}] * 6
    edit(firm, key, "indoor_humidity/humidity_class", 4)
    edit(firm, key, "indoor_humidity/relative_humidity", shares)
    assert document_of(firm, key)["indoor_humidity"] == {"relative_humidity": shares}
    edit(firm, key, "indoor_humidity/humidity_class", 1)
    assert document_of(firm, key)["indoor_humidity"] == {"humidity_class": 1}
    for value in (0, 6, "2"):
        with pytest.raises(BadFile):
            edit(firm, key, "indoor_humidity/humidity_class", value)
