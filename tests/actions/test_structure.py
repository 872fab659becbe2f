"""Parts are added, copied, moved and removed."""

import copy
from functools import partial

import pytest

from server.actions import structure
from server.files.keyed import Gone
from tests.actions.documents import compared, demo_document, key_named
from tests.stored_houses import keys_of

NOBODY = "0" * 32


@pytest.fixture
def document():
    return demo_document()


def test_a_free_name_is_numbered():
    assert structure.free_name("wall", []) == "wall"
    assert structure.free_name("wall", ["wall", "wall 2", "wall 4"]) == "wall 3"


def test_without_keys_leaves_what_is_only_called_key():
    part = {"key": "a" * 32, "changes": {"key": {"fill": "air"}}, "psi": {"key": "0.1 W/(m*K)"}}
    assert structure.without_keys(part) == {
        "changes": {"key": {"fill": "air"}},
        "psi": {"key": "0.1 W/(m*K)"},
    }


# Layers


@pytest.mark.parametrize(("position", "place"), [(0, 0), (1, 1), (4, 4), (999, 4), (-1, 4)])
def test_a_layer_is_added_at_its_place(document, position, place):
    key = key_named(document, "assemblies", "main wall as found")
    layers = document["assemblies"]["main wall as found"]["layers"]
    assert len(layers) == 4
    board = {"material": "gypsum board", "thickness": "1/2 in"}
    structure.add_layer(document, ["assemblies", key, "layers"], board, position)
    assert layers[place] is board
    assert len(layers) == 5
    compared(document)


def test_a_layer_is_added_where_a_change_has_none_yet(document):
    strategy = document["strategies"][0]
    holder = ["strategies", strategy["key"], "changes", "east wall", "inside"]
    assert "inside" not in strategy["changes"]["east wall"]
    structure.add_layer(document, holder, {"material": "gypsum board", "thickness": "1 in"}, 0)
    assert len(strategy["changes"]["east wall"]["inside"]) == 1
    compared(document)


@pytest.mark.parametrize(
    ("index", "by", "order"),
    [(0, 1, [1, 0, 2, 3]), (3, -1, [0, 1, 3, 2]), (0, -1, [0, 1, 2, 3]), (3, 1, [0, 1, 2, 3])],
)
def test_a_layer_moves_one_place(document, index, by, order):
    key = key_named(document, "assemblies", "main wall as found")
    layers = document["assemblies"]["main wall as found"]["layers"]
    before = list(layers)
    structure.move_layer(document, ["assemblies", key, "layers"], before[index]["key"], by)
    assert layers == [before[n] for n in order]


def test_a_layer_is_removed(document):
    key = key_named(document, "assemblies", "main wall as found")
    layers = document["assemblies"]["main wall as found"]["layers"]
    first = layers[0]
    structure.remove_layer(document, ["assemblies", key, "layers"], first["key"])
    assert first not in layers
    assert len(layers) == 3


# Parts


def test_a_copied_component_stands_behind_its_pattern(document):
    key = key_named(document, "components", "east wall")
    for name in ("east wall 2", "east wall 3"):
        assert structure.copy_component(document, key) == name
    names = [part["name"] for part in document["components"]]
    place = names.index("east wall")
    assert names[place : place + 3] == ["east wall", "east wall 3", "east wall 2"]
    original, copied = document["components"][place : place + 2]
    assert copied == structure.without_keys(original) | {"name": "east wall 3"}


def test_what_strategies_do_to_a_component_goes_with_it(document):
    for name in ("east wall", "east basement windows", "sun-room slab"):
        structure.remove_component(document, key_named(document, "components", name))
        for strategy in document["strategies"]:
            for sort in ("changes", "openings", "edge_insulation"):
                assert name not in strategy.get(sort, {})
    compared(document)


def test_what_strategies_make_of_a_junction_goes_with_it(document):
    for name in [junction["name"] for junction in document["junctions"]]:
        structure.remove_junction(document, key_named(document, "junctions", name))
    assert document["junctions"] == []
    assert all(not strategy.get("psi") for strategy in document["strategies"])
    compared(document)


def test_a_space_in_use_stays(document):
    before = copy.deepcopy(document)
    with pytest.raises(structure.StillUsed) as refusal:
        structure.remove_space(document, key_named(document, "spaces", "upper attic"))
    assert refusal.value.name == "upper attic"
    assert "upper ceiling" in refusal.value.users
    assert document == before


def test_a_space_used_by_a_junction_stays(document):
    document["spaces"]["shed"] = {"inside": False, "volume": "9 m^3", "key": "b" * 32}
    document["junctions"][0]["to"] = "shed"
    with pytest.raises(structure.StillUsed) as refusal:
        structure.remove_space(document, "b" * 32)
    assert refusal.value.users == (document["junctions"][0]["name"],)


def test_what_speaks_of_a_removed_space_goes(document):
    document["spaces"]["shed"] = {"inside": False, "volume": "9 m^3", "key": "b" * 32}
    strategy = document["strategies"][1]
    document["heating"]["ducts_in"] = "shed"
    strategy["cooling"] = document["cooling"] | {"ducts_in": "shed"}
    strategy["inside"].append("shed")
    strategy["spaces"] = {"shed": {"air_changes": "1 1/hour"}}
    structure.remove_space(document, "b" * 32)
    assert "shed" not in str(document)
    compared(document)


def test_an_assembly_in_use_stays(document):
    with pytest.raises(structure.StillUsed) as refusal:
        structure.remove_assembly(document, key_named(document, "assemblies", "knee wall as found"))
    assert refusal.value.users[:2] == ("south knee wall", "north knee wall")
    assert "Exterior continuous" in refusal.value.users


def test_an_assembly_is_copied_and_the_copy_removed(document):
    before = copy.deepcopy(document)
    name = structure.copy_assembly(
        document, key_named(document, "assemblies", "main wall as found")
    )
    assert name == "main wall as found 2"
    assert list(document["assemblies"])[-1] == name
    assert keys_of(document["assemblies"][name]) == []
    document["assemblies"][name]["key"] = "c" * 32
    structure.remove_assembly(document, "c" * 32)
    assert document == before


def test_a_copied_strategy_is_ones_own(document):
    first = document["strategies"][0]
    assert structure.copy_strategy(document, first["key"]) == "Cavity only 2"
    copied = document["strategies"][-1]
    assert copied["recipe"] == "own"
    assert keys_of(copied) == []
    assert copied["changes"].keys() == first["changes"].keys()
    compared(document)


def test_a_strategy_is_removed(document):
    structure.remove_strategy(document, document["strategies"][1]["key"])
    assert [each["name"] for each in document["strategies"]] == ["Cavity only", "Hybrid"]


@pytest.mark.parametrize(
    "attempt",
    [
        partial(structure.copy_component, key=NOBODY),
        partial(structure.remove_component, key=NOBODY),
        partial(structure.remove_junction, key=NOBODY),
        partial(structure.remove_space, key=NOBODY),
        partial(structure.remove_assembly, key=NOBODY),
        partial(structure.copy_assembly, key=NOBODY),
        partial(structure.remove_strategy, key=NOBODY),
        partial(structure.copy_strategy, key=NOBODY),
        partial(structure.add_layer, holder=["assemblies", NOBODY, "layers"], layer={}, position=0),
        partial(structure.add_layer, holder=["nothing", "layers"], layer={}, position=0),
        partial(structure.add_layer, holder=["layers"], layer={}, position=0),
        partial(structure.add_layer, holder=["name", "layers"], layer={}, position=0),
        partial(structure.add_layer, holder=["components", "layers"], layer={}, position=0),
        partial(structure.move_layer, holder=["assemblies", NOBODY, "layers"], key=NOBODY, by=1),
        partial(structure.remove_layer, holder=["spaces"], key=NOBODY),
        partial(structure.remove_layer, holder=[""], key=NOBODY),
    ],
    ids=lambda attempt: f"{attempt.func.__name__}-{'-'.join(attempt.keywords.get('holder', []))}",
)
def test_what_is_not_there_is_gone(document, attempt):
    before = copy.deepcopy(document)
    with pytest.raises(Gone):
        attempt(document)
    assert document == before


# What a strategy does to one component


def exterior(document):
    return next(each for each in document["strategies"] if each["name"] == "Exterior continuous")


def resistances(document, name):
    """R of a component as found and under the strategy that wraps the house."""
    both = compared(document)
    index = [each["name"] for each in document["components"]].index(name)
    place = [each.name for each in both.strategies].index("Exterior continuous")
    results = (both.as_found, both.results[place])
    return tuple(result.components[index].resistance for result in results)


def test_a_part_is_left_as_found_though_its_kind_is_changed(document):
    strategy = exterior(document)
    others = resistances(document, "north wall")
    assert "wall" in strategy["changes"]
    key = key_named(document, "components", "east wall")
    structure.leave_as_found(document, strategy["key"], key)
    before, after = resistances(document, "east wall")
    assert after == before
    assert resistances(document, "north wall") == others
    structure.follow_kind(document, strategy["key"], key)
    assert resistances(document, "east wall")[1] > before


def test_a_change_of_its_own_goes_where_a_part_is_left_as_found(document):
    strategy = document["strategies"][0]
    key = key_named(document, "components", "east wall")
    structure.leave_as_found(document, strategy["key"], key)
    assert "east wall" not in strategy["changes"]
    compared(document)


def test_a_change_of_a_kind_goes_with_the_last_part_it_reached(document):
    strategy = exterior(document)
    roofs = [
        part
        for part in document["components"]
        if part["kind"] == "roof" and part["name"] not in strategy["changes"]
    ]
    for part in roofs[:-1]:
        structure.own_change(document, strategy["key"], part["key"])
        assert "roof" in strategy["changes"]
    structure.leave_as_found(document, strategy["key"], roofs[-1]["key"])
    assert "roof" not in strategy["changes"]
    compared(document)


def test_a_part_without_an_assembly_follows_its_kind(document):
    strategy = exterior(document)
    part = next(each for each in document["components"] if each["name"] == "east wall")
    del part["assembly"]
    part["u_value"] = "0.2 Btu/(h*ft^2*degF)"
    with pytest.raises(structure.ReachedByKind):
        structure.leave_as_found(document, strategy["key"], part["key"])
