"""A ranch of 1962 behind brick veneer, over a vented crawlspace with bare ground."""

from __future__ import annotations

import functools
import json
from dataclasses import replace
from typing import Any

from server.files.building import Project, read_project
from server.files.house_file import Typed
from server.recipes.making import make_strategies
from server.survey.outline import Outline, house_from_outline
from tests.core.findings.walls import ZONES
from tests.recipes.houses import Json, rebuilt

SEEN = {"below_grade": "dry", "crawl_ground_cover": "bare", "veneer_weeps": "open"}


def _length(text: str) -> Any:
    return Typed("thickness").read({"value": text, "basis": "measured"})


BEGUN = Outline(
    name="ranch",
    region="",
    year_built=1962,
    length=_length("48 ft"),
    width=_length("28 ft"),
    foundation="crawlspace",
    wall="gypsum board, 2x4 R-11, fibreboard, brick veneer",
    rim_joist="rim joist, boards and brick veneer",
)


@functools.cache
def _text(zone: str, rim: str | None) -> str:
    outline = replace(BEGUN, region=ZONES[zone], rim_joist=rim)
    return json.dumps(house_from_outline(outline).as_written())


def ranch(zone: str = "7", rim: str | None = BEGUN.rim_joist, **keys: Any) -> Json:
    """The house file, without strategies; zone: of those that the tests have a region for."""
    document: Json = json.loads(_text(zone, rim))
    return document | {"seen": SEEN} | keys


def ranch_with_strategies(zone: str = "7", **keys: Any) -> Project:
    """The project with the strategies that the recipes make."""
    found = read_project(json.dumps(ranch(zone, **keys)))
    return rebuilt(found, make_strategies(found))
