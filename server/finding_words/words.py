"""The sentences of every rule, by its code."""

from __future__ import annotations

from collections.abc import Mapping

from server.finding_words import materials, moisture
from server.finding_words.base import RuleWords

ALL_WORDS: Mapping[str, RuleWords] = {**moisture.WORDS, **materials.WORDS}
