"""What differs between two versions, in words for the history."""

import copy

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from server.actions.renaming import rename
from server.actions.structure import copy_component, move_layer
from server.files.differences import ADDED, REMOVED, differences
from server.files.house_file import HouseFile
from server.storage.house_rows import with_keys
from tests.actions.documents import demo_document, key_named, place
from tests.generated_houses import houses


@pytest.fixture
def document():
    return demo_document()


def after(document, change):
    changed = copy.deepcopy(document)
    change(changed)
    return differences(document, changed)


def test_nothing_differs(document):
    assert after(document, lambda _changed: None) == []


def test_a_quantity_shows_its_text_and_basis(document):
    def change(changed):
        changed["floor_area"] = {"value": "1500 ft^2", "basis": "guess"}

    assert after(document, change) == [
        {"place": "floor_area", "before": "1430 ft^2 (measured)", "after": "1500 ft^2 (guess)"}
    ]


def test_a_basis_alone_differs(document):
    def change(changed):
        changed["floor_area"] = {"value": "1430 ft^2", "basis": "guess"}

    (found,) = after(document, change)
    assert found["after"] == "1430 ft^2 (guess)"


def test_three_and_three_point_nought_differ(document):
    assert [each["after"] for each in after(document, lambda d: d.update(bedrooms=3.0))] == ["3.0"]


def test_a_value_given_and_taken_away(document):
    (given_,) = after(document, lambda changed: changed.update(thermal_mass="heavy"))
    assert (given_["before"], given_["after"]) == (None, "heavy")
    (taken,) = after(document, lambda changed: changed.pop("films"))
    assert (taken["before"], taken["after"]) == ("ISO 6946", None)


def test_a_section_given_or_taken_away_is_told_by_its_values(document):
    document.pop("energy_code", None)
    code = {"edition": "IECC 2018", "window": {"value": "U-0.3", "basis": "document"}}
    found = after(document, lambda changed: changed.update(energy_code=code))
    assert [(each["place"], each["before"], each["after"]) for each in found] == [
        ("energy_code, edition", None, "IECC 2018"),
        ("energy_code, window", None, "U-0.3 (document)"),
    ]
    document["energy_code"] = code
    gone = after(document, lambda changed: changed.pop("energy_code"))
    assert [each["after"] for each in gone] == [None, None]


def test_a_component_is_named(document):
    def change(changed):
        part = next(each for each in changed["components"] if each["name"] == "east wall")
        part["azimuth"] = "91 deg"

    (found,) = after(document, change)
    assert found["place"] == "components, east wall, azimuth"


def test_a_part_added_and_one_removed(document):
    (added,) = after(
        document,
        lambda changed: changed["components"].append({"name": "new wall", "key": "d" * 32}),
    )
    assert (added["place"], added["before"], added["after"]) == (
        "components, new wall",
        None,
        ADDED,
    )
    found = after(document, lambda changed: changed["junctions"].pop())
    assert [(each["before"], each["after"]) for each in found] == [(REMOVED, None)]


def test_a_new_name_is_one_difference_with_those_that_follow(document):
    def change(changed):
        rename(changed, place(changed, "spaces", "upper attic", "name"), "loft")

    found = after(document, change)
    assert {"place": "spaces", "before": "upper attic", "after": "loft"} in found
    assert {
        "place": "components, upper ceiling, to",
        "before": "upper attic",
        "after": "loft",
    } in found
    assert not [each for each in found if each["before"] is None or each["after"] is None]


def test_another_order_is_said(document):
    key = key_named(document, "assemblies", "main wall as found")
    layer = document["assemblies"]["main wall as found"]["layers"][0]["key"]
    found = after(
        document, lambda changed: move_layer(changed, ["assemblies", key, "layers"], layer, 1)
    )
    assert [each["place"] for each in found] == ["assemblies, main wall as found, layers, order"]


@pytest.mark.parametrize("name", ["key", "value", "basis", "name", "layers"])
def test_names_that_mean_something_elsewhere(document, name):
    def renamed(changed):
        rename(changed, place(changed, "spaces", "upper attic", "name"), name)

    assert after(document, renamed)
    renamed(document)

    def change(changed):
        changed["spaces"][name]["volume"] = "1 m^3"

    (found,) = after(document, change)
    assert found == {
        "place": f"spaces, {name}, volume",
        "before": "750 ft^3 (measured)",
        "after": "1 m^3",
    }


@settings(
    max_examples=15,
    deadline=None,
    derandomize=True,
    database=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)
@given(houses(), houses())
def test_any_two_houses_can_be_told_apart(one, other):
    first, second = with_keys(one).as_stored(), with_keys(other).as_stored()
    assert differences(first, first) == []
    found = differences(first, second)
    assert bool(found) == (first != second)
    for each in found:
        assert isinstance(each["place"], str)
        assert {type(each["before"]), type(each["after"])} <= {str, type(None)}


def test_a_copy_differs_by_its_keys_only(document):
    changed = copy.deepcopy(document)
    copy_component(changed, changed["components"][0]["key"])
    kept = with_keys(HouseFile.from_stored(changed)).as_stored()
    assert [each["before"] for each in differences(document, kept)] == [None]
