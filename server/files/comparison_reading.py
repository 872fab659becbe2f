"""From the text of a comparison file to its figures; nothing is computed anew."""

from __future__ import annotations

from gettext import gettext as _
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from server.files.comparison_file import FORMAT
from server.files.faults import BadFile
from server.files.house_file import Name
from server.files.reading import faults_of

MOST_RESULTS = 50
MOST_PARTS = 5000
MOST_FUELS = 20
MOST_FINDINGS = 1000

Figure: TypeAlias = Annotated[float, Field(allow_inf_nan=False)]
MaybeFigure: TypeAlias = Figure | None


class _Part(BaseModel):
    # later writers may add keys; none of those known here changes its meaning
    model_config = ConfigDict(extra="ignore", strict=True)


class ComponentFigures(_Part):
    """One part of the house; U and R with films and, in the ground, soil."""

    name: Name
    u_w_per_m2k: Figure
    r_m2k_per_w: Figure
    upper_limit_r_m2k_per_w: MaybeFigure
    lower_limit_r_m2k_per_w: MaybeFigure
    label_r_m2k_per_w: MaybeFigure
    ua_w_per_k: Figure
    heating_share_kwh: Figure


class FuelFigures(_Part):
    """Fuel of one use in a year."""

    use: Name
    fuel: Name
    kwh: Figure
    cost_usd: MaybeFigure
    carbon_kg: MaybeFigure


class FindingFigures(_Part):
    """One finding, in the words of whoever wrote the file."""

    severity: Name
    text: Annotated[str, Field(max_length=2000)]
    component: Name | None = None
    components: Annotated[list[Name], Field(max_length=MOST_PARTS)] = Field(default_factory=list)
    mend: Annotated[str, Field(max_length=2000)] | None = None


class ResultFigures(_Part):
    """One column of the comparison."""

    strategy: Name
    k_outdoors_w_per_k: Figure
    k_ground_w_per_k: Figure
    k_air_w_per_k: Figure
    components: Annotated[list[ComponentFigures], Field(max_length=MOST_PARTS)]
    heating_load_kwh: Figure
    cooling_load_kwh: Figure
    latent_load_kwh: Figure
    fuel: Annotated[list[FuelFigures], Field(max_length=MOST_FUELS)]
    annual_cost_usd: MaybeFigure
    carbon_kg: MaybeFigure
    findings: Annotated[list[FindingFigures], Field(max_length=MOST_FINDINGS)] | None = None


class ComparisonFile(_Part):
    """A comparison file as it was written, by whichever method version."""

    format: Literal["warmside-comparison/1"]
    house: Name
    climate: Name | None = None
    method_version: Name
    results: Annotated[list[ResultFigures], Field(min_length=1, max_length=MOST_RESULTS)]

    @model_validator(mode="after")
    def _all_results_have_the_same_parts(self) -> ComparisonFile:
        names = [[part.name for part in result.components] for result in self.results]
        if any(each != names[0] for each in names):
            raise ValueError(_("all results must list the same components in the same order"))
        return self


def is_comparison_file(document: Any) -> bool:
    """Whether a document calls itself a comparison file."""
    return isinstance(document, dict) and document.get("format") == FORMAT


def comparison_file_of(document: Any) -> ComparisonFile:
    """A checked comparison file. Raises BadFile with every fault."""
    try:
        return ComparisonFile.model_validate(document)
    except ValidationError as error:
        raise BadFile(faults_of(error)) from None
