"""The defaults of a region, as typed, and those that come with the seed data."""

from __future__ import annotations

import functools
import json
from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

from server.files import house_file as hf
from server.files.seeds import SEED_DATA, regions

SEED_DEFAULTS = SEED_DATA / "region_defaults.json"
FILMS = ("ISO 6946", "ASHRAE winter")
EDITIONS: tuple[str, ...] = get_args(hf.EnergyCodeEntry.model_fields["edition"].annotation)
LIMITS = tuple(name for name in hf.EnergyCodeEntry.model_fields if name != "edition")


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, arbitrary_types_allowed=True)


def _climate_tag(given: Any) -> str:
    if isinstance(given, BaseModel):
        given = given.model_fields_set
    return "<station>" if isinstance(given, dict | set) and "station" in given else "<own>"


RegionClimate: TypeAlias = Annotated[
    Annotated[hf.StationClimate, Tag("<station>")] | Annotated[hf.OwnClimate, Tag("<own>")],
    Discriminator(_climate_tag),
]


class FramingFractions(_Part):
    """Share of framing across the face of a part."""

    walls: hf.Number
    roofs_and_ceilings: hf.Number
    floors: hf.Number


class RegionDefaults(_Part):
    """What a house of the region begins with. iecc_zone: where the climate's own is not to hold."""

    name: hf.Name
    note: hf.Text = ""
    climate: RegionClimate
    set_points: hf.SetPoints
    prices: Annotated[dict[hf.Name, hf.Price], Field(min_length=1)]
    carbon: Annotated[dict[hf.Name, hf.Carbon], Field(min_length=1)]
    films: Literal["ISO 6946", "ASHRAE winter"] = "ISO 6946"
    framing_fractions: FramingFractions
    iecc_zone: hf.Name | None = None
    indoor_humidity: hf.IndoorHumidityEntry | None = None
    energy_code: hf.EnergyCodeEntry | None = None

    def as_written(self) -> dict[str, Any]:
        """The document, every value as it was typed."""
        return self.model_dump(mode="python", exclude_unset=True, exclude_none=True)


@functools.cache
def seed_regions() -> dict[str, RegionDefaults]:
    """Key to the defaults of each region of the seed data. Nobody may change what is returned."""
    documents = json.loads(SEED_DEFAULTS.read_text(encoding="utf-8"))
    return {
        key: RegionDefaults.model_validate(
            documents[key]
            | {
                "name": region.name,
                "note": f"{region.note}. {documents[key]['note']}",
                "climate": {"station": region.station},
            }
        )
        for key, region in regions().items()
    }
