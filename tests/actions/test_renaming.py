"""A part gets another name, and all that speak of it follow."""

import copy

import pytest

from server.actions.renaming import NameInUse, rename
from server.files.keyed import Gone, place_of
from tests.actions.documents import compared, demo_document, key_named, place

NEW = "a new name: 5/8 \" 'x' 50 % [3].y"
ALSO_CALLED_SO = {"side door", "sun-room door", "basement floor"}  # other sorts of parts, a kind
SORTS = ("spaces", "materials", "assemblies", "components", "junctions", "strategies")


@pytest.fixture(scope="module")
def heating():
    return [result.heating_load_kwh for result in compared(demo_document()).results]


def names_of(part):
    """Every text of a document, keys of objects too."""
    if isinstance(part, dict):
        return {text for name, each in part.items() for text in {name} | names_of(each)}
    if isinstance(part, list):
        return {text for each in part for text in names_of(each)}
    return {part} if isinstance(part, str) else set()


@pytest.mark.parametrize("sort", SORTS)
def test_every_part_of_a_sort_is_renamed_with_all_that_speaks_of_it(sort, heating):
    document = demo_document()
    parts = document[sort]
    old_names = list(parts) if isinstance(parts, dict) else [part["name"] for part in parts]
    for number, old in enumerate(old_names):
        rename(document, place(document, sort, old, "name"), f"{NEW} {number}")
    assert names_of(document) & set(old_names) <= ALSO_CALLED_SO
    assert [result.heating_load_kwh for result in compared(document).results] == pytest.approx(
        heating
    )


@pytest.mark.parametrize("sort", SORTS)
def test_renaming_back_gives_the_same_document(sort):
    before = demo_document()
    document = copy.deepcopy(before)
    parts = document[sort]
    name = next(iter(parts)) if isinstance(parts, dict) else parts[0]["name"]
    where = place(document, sort, name, "name")
    rename(document, where, NEW)
    assert document != before
    rename(document, where, name)
    assert document == before
    assert str(document) == str(before)  # in the same order too


def test_strategies_follow_a_space():
    document = demo_document()
    strategy = document["strategies"][1]
    strategy["spaces"] = {"upper attic": {"air_changes": "2 1/hour"}}
    strategy["heating"] = document["heating"] | {"ducts_in": "upper attic"}
    rename(document, place(document, "spaces", "upper attic", "name"), NEW)
    assert strategy["spaces"] == {NEW: {"air_changes": "2 1/hour"}}
    assert strategy["heating"]["ducts_in"] == NEW
    assert NEW in strategy["inside"]
    assert "inside" not in document["strategies"][0] or document["strategies"][0]["inside"] == []


def test_strategies_follow_a_material():
    document = demo_document()
    name = "old glass fibre batt"
    document["strategies"][0]["changes"]["east wall"] = {
        "fill": name,
        "remove": [name],
        "inside": [{"material": name, "thickness": "1 in"}],
        "outside": [
            {"framed": {"framing": name, "fill": name, "fraction": 0.1, "depth": "2 in"}},
        ],
    }
    rename(document, place(document, "materials", name, "name"), NEW)
    assert name not in names_of(document)
    assert document["strategies"][0]["changes"]["east wall"]["fill"] == NEW


def test_an_opening_and_a_slab_are_followed():
    document = demo_document()
    for name in ("east basement windows", "sun-room slab"):
        rename(document, place(document, "components", name, "name"), f"{NEW} {name}")
    strategy = document["strategies"][1]
    assert f"{NEW} east basement windows" in strategy["openings"]
    assert f"{NEW} sun-room slab" in strategy["edge_insulation"]


def test_a_change_of_a_kind_is_not_one_of_a_component_of_that_name():
    document = demo_document()
    rename(document, place(document, "components", "east wall", "name"), "wall")
    assert "wall" in document["strategies"][1]["changes"]
    assert "east wall" not in names_of(document["strategies"][0])


def test_a_layer_of_every_assembly_is_renamed_with_removals(heating):
    document = demo_document()
    for number, (assembly, part) in enumerate(document["assemblies"].items()):
        for layer in part.get("layers", []):
            if "name" in layer:
                where = place(document, "assemblies", assembly, "layers", layer["key"], "name")
                rename(document, where, f"{NEW} {number} {layer['name']}")
    assert [result.heating_load_kwh for result in compared(document).results] == pytest.approx(
        heating
    )


def test_a_layer_of_a_strategy_is_renamed_by_itself():
    document = demo_document()
    strategy = document["strategies"][1]
    layer = strategy["changes"]["wall"]["outside"][0]
    assert "key" in layer
    where = place_of(
        "strategies", strategy["key"], "changes", "wall", "outside", layer["key"], "name"
    )
    rename(document, where, NEW)
    assert layer["name"] == NEW
    rename(document, where, None)
    assert "name" not in layer


@pytest.mark.parametrize("sort", ["spaces", "materials", "assemblies"])
def test_a_name_of_another_part_is_refused(sort):
    document = demo_document()
    first, second = list(document[sort])[:2]
    with pytest.raises(NameInUse) as refusal:
        rename(document, place(document, sort, first, "name"), second)
    assert refusal.value.name == second
    rename(document, place(document, sort, first, "name"), first)
    assert list(document[sort])[:2] == [first, second]


@pytest.mark.parametrize("sort", SORTS)
def test_a_part_that_is_not_there_is_gone(sort):
    document = demo_document()
    with pytest.raises(Gone):
        rename(document, f"{sort}/{'0' * 32}/name", NEW)
    assert NEW not in names_of(document)


def test_a_part_called_key_can_be_renamed():
    document = demo_document()
    for sort in ("spaces", "assemblies", "components", "junctions"):
        parts = document[sort]
        name = list(parts)[1] if isinstance(parts, dict) else parts[1]["name"]
        key = key_named(document, sort, name)
        rename(document, place(document, sort, name, "name"), "key")
        assert key_named(document, sort, "key") == key
    compared(document)
