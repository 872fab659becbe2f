"""A house file, stored as rows and read again, is what it was."""

import json

import pytest
from hypothesis import HealthCheck, Phase, example, given, settings

from server.actions.structure import copy_assembly, copy_component, copy_strategy
from server.files.house_file import HouseFile
from server.storage.house_rows import BOOKKEEPING, columns_of, to_rows, with_keys, with_new_keys
from server.storage.models import HOUSE_PARTS, HouseRow
from tests.accounts.site import MovedClock
from tests.databases import empty
from tests.generated_houses import fields_set, houses, models
from tests.stored_houses import Firm, demo_file, keys_of, small_file

FEW = settings(
    max_examples=15,
    deadline=None,
    derandomize=True,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


def as_text(house):
    """The file's text: it tells 1 from 1.0 and keeps the order of keys."""
    return json.dumps(house.as_written(), ensure_ascii=False, indent=1)


@pytest.fixture
def firm(database):
    return Firm(database, MovedClock())


@pytest.mark.parametrize("file", [demo_file, small_file])
def test_a_house_comes_back_as_it_was_written(firm, file):
    house = file()
    assert as_text(firm.load(firm.add(house)).house) == as_text(house)


@example(demo_file())
@given(houses())
@FEW
def test_any_house_comes_back_as_it_was_written(database, house):
    empty(database)
    firm = Firm(database, MovedClock())
    key = firm.add(house)
    read = firm.load(key).house
    assert as_text(read) == as_text(house)
    with firm.houses(writing=False) as repository:
        kept = repository.version(key, 1)
    assert kept.as_stored() == read.as_stored()
    assert as_text(kept) == as_text(house)


@given(houses(), houses())
@settings(FEW, max_examples=10)
def test_a_house_saved_over_another_is_the_later_one(database, before, after):
    empty(database)
    firm = Firm(database, MovedClock())
    key = firm.add(before)
    with firm.houses() as repository:
        repository.save_house(key, after, 1, "Cory Invented")
    assert as_text(firm.load(key).house) == as_text(after)


def test_generated_houses_give_every_field_and_fill_every_column():
    fields, filled = set(), set()

    @settings(FEW, max_examples=120)
    @given(houses())
    def look(house):
        fields.update(fields_set(house))
        rows = to_rows("f", "h", with_keys(house))
        for row in [rows.house, *(row for table in HOUSE_PARTS for row in rows.of(table))]:
            given = {name for name, value in columns_of(row).items() if value is not None}
            filled.update((row.__tablename__, name) for name in given)

    look()
    known = {(model.__name__, name) for model in models() for name in model.model_fields}
    assert {(model, name) for model, name in known - fields if name != "key"} == set()
    columns = {
        (table.__tablename__, column.name)
        for table in (HouseRow, *HOUSE_PARTS)
        for column in table.__table__.columns
        if column.name not in BOOKKEEPING and not column.name.endswith("_basis")
    }
    assert columns - filled == set()


def test_what_is_empty_is_as_good_as_not_there(firm):
    document = small_file().as_written()
    document |= {"materials": {}, "gains": {}}
    document["components"][0]["condition"] = []
    document["strategies"][0] |= {"inside": [], "psi": {}}
    house = HouseFile.model_validate(document)
    assert as_text(firm.load(firm.add(house)).house) == as_text(small_file())


# Keys


def test_every_part_has_a_key_of_its_own(firm):
    keys = keys_of(firm.load(firm.add(demo_file())).house.as_stored())
    assert len(keys) == len(set(keys)) > 40
    assert all(len(key) == 32 and int(key, 16) >= 0 for key in keys)


def test_keys_outlive_a_change_and_a_save(firm):
    key = firm.add(demo_file())
    before = keys_of(firm.load(key).house.as_stored())
    firm.change(key, lambda document: document.update(bedrooms=5))
    assert keys_of(firm.load(key).house.as_stored()) == before


def test_renamed_and_moved_parts_keep_their_keys(firm):
    key = firm.add(demo_file())
    before = firm.load(key).house.as_stored()

    def change(document):
        document["components"].reverse()
        document["components"][0]["name"] = "another name"
        spaces = document["spaces"]
        document["spaces"] = {
            ("cellar" if name == "basement" else name): space for name, space in spaces.items()
        }
        for part in [*document["components"], *document["junctions"]]:
            for end in ("from", "to"):
                part[end] = "cellar" if part[end] == "basement" else part[end]

    firm.change(key, change)
    after = firm.load(key).house.as_stored()
    assert sorted(keys_of(after)) == sorted(keys_of(before))
    assert after["spaces"]["cellar"]["key"] == before["spaces"]["basement"]["key"]
    assert after["components"][0]["key"] == before["components"][-1]["key"]


def test_a_part_added_gets_a_key_and_the_others_keep_theirs(firm):
    key = firm.add(small_file())
    before = keys_of(firm.load(key).house.as_stored())
    firm.change(
        key, lambda document: document["spaces"].update(den={"inside": True, "volume": "9 m^3"})
    )
    after = keys_of(firm.load(key).house.as_stored())
    assert len(set(after) - set(before)) == 1
    assert set(before) < set(after)


def test_copies_have_keys_of_their_own(firm):
    house = firm.load(firm.add(demo_file())).house
    assert not set(keys_of(house.as_stored())) & set(keys_of(with_new_keys(house).as_stored()))

    document = house.as_stored()
    before = keys_of(document)
    copy_component(document, document["components"][0]["key"])
    copy_assembly(document, next(iter(document["assemblies"].values()))["key"])
    copy_strategy(document, document["strategies"][1]["key"])
    after = keys_of(with_keys(HouseFile.from_stored(document)).as_stored())
    assert len(after) == len(set(after)) > len(before) + 3
    assert set(before) < set(after)


def test_a_file_brings_no_keys():
    document = small_file().as_written()
    assert keys_of(document) == []
    document["components"][0]["key"] = "0" * 32
    with pytest.raises(ValueError, match="not known"):
        HouseFile.model_validate(document)
