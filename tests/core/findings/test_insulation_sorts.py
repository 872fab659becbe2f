"""What an insulation is made of is known of every one in the material table."""

import pytest

from server.core.findings.insulation_sorts import Sort, sort_of
from server.core.findings.layers import INSULATION
from server.core.materials import Material
from server.files import seeds

ROWS = [row for row in seeds.material_rows() if row.figures["group"] in INSULATION]


@pytest.mark.parametrize("name", [row.name for row in ROWS])
def test_every_insulation_of_the_table_is_known(name):
    known = sort_of(Material(name, 0.04)) is not Sort.OTHER
    assert known or name == "urea-formaldehyde foam, old"


@pytest.mark.parametrize(
    ("name", "sort"),
    [
        ("sheep wool batt", Sort.NATURAL_FIBRE),
        ("wood-wool cement board", Sort.WOOD_WOOL_CEMENT),
        ("cellular glass", Sort.CELLULAR_GLASS),
        ("Glass fiber batt", Sort.GLASS_WOOL),
        ("wood-fiber batt", Sort.WOOD_FIBRE),
        ("rigid mineral wool board", Sort.STONE_WOOL),
        ("old brick", Sort.OTHER),
    ],
)
def test_names_are_told_apart(name, sort):
    assert sort_of(Material(name, 0.04)) is sort
