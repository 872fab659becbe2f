"""The sentences of every rule, by its code."""

from __future__ import annotations

from collections.abc import Mapping

from server.finding_words import (
    air,
    code,
    masonry,
    materials,
    moisture,
    old_house,
    roof,
    structure,
    water,
)
from server.finding_words.base import RuleWords

ALL_WORDS: Mapping[str, RuleWords] = {
    **moisture.WORDS,
    **code.WORDS,
    **structure.WORDS,
    **water.WORDS,
    **roof.WORDS,
    **masonry.WORDS,
    **air.WORDS,
    **old_house.WORDS,
    **materials.WORDS,
}
