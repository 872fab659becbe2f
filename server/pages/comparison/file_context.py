"""What a comparison file shows: its figures as they were written, side by side."""

from __future__ import annotations

from collections.abc import Callable
from gettext import gettext as _
from typing import Any

from server.files.comparison_file import AS_FOUND
from server.files.comparison_reading import ComparisonFile, ComponentFigures, ResultFigures
from server.sheet import JOULES_PER_KWH, Figure, Row, Section
from server.units import System


def comparison_file_context(file: ComparisonFile, text: str, units: System) -> dict[str, Any]:
    """The page of a comparison file. text: what it was read from."""
    return {
        "file": file,
        "text": text,
        "units": units,
        "columns": [
            _("As found") if result.strategy == AS_FOUND else result.strategy
            for result in file.results
        ],
        "findings": [result.findings for result in file.results],
        "sections": (
            Section(
                _("A year in figures"),
                _("Heat and cold are what the rooms need; fuel is what the meters read."),
                _year(file),
            ),
            Section(
                _("Heat by part of the house"),
                _("The yearly heating need, shared out by what each part of the house loses."),
                _parts(file, "energy", lambda part: part.heating_share_kwh * JOULES_PER_KWH),
            ),
            Section(
                _("Real R of every part"),
                _("Framing, films and, in the ground, soil counted."),
                _parts(file, "resistance", lambda part: part.r_m2k_per_w),
            ),
            Section(
                _("Air and conductance"),
                _("Per degree between indoors and outdoors, or indoors and ground."),
                _conductances(file),
            ),
        ),
    }


def _row(
    file: ComparisonFile,
    name: str,
    kind: str,
    read: Callable[[ResultFigures], float | None],
    *,
    strong: bool = False,
) -> Row:
    return Row(name, kind, tuple(Figure(read(result)) for result in file.results), strong)


def _year(file: ComparisonFile) -> tuple[Row, ...]:
    uses = dict.fromkeys((use.use, use.fuel) for result in file.results for use in result.fuel)
    return (
        _row(file, _("Heating need"), "energy", lambda r: r.heating_load_kwh * JOULES_PER_KWH),
        _row(
            file,
            _("Cooling need, sensible"),
            "energy",
            lambda r: r.cooling_load_kwh * JOULES_PER_KWH,
        ),
        _row(
            file,
            _("Cooling need, moisture"),
            "energy",
            lambda r: r.latent_load_kwh * JOULES_PER_KWH,
        ),
        *(_fuel_row(file, use, fuel) for use, fuel in uses),
        _row(file, _("Cost of fuel a year"), "money", lambda r: r.annual_cost_usd, strong=True),
        _row(file, _("Carbon dioxide a year"), "carbon_mass", lambda r: r.carbon_kg),
    )


def _fuel_row(file: ComparisonFile, use: str, fuel: str) -> Row:
    def energy(result: ResultFigures) -> float | None:
        for each in result.fuel:
            if (each.use, each.fuel) == (use, fuel):
                return each.kwh * JOULES_PER_KWH
        return None

    name = _("{fuel} for {use}").format(fuel=fuel.capitalize(), use=use)
    return _row(file, name, "gas_energy" if fuel == "natural gas" else "energy", energy)


def _parts(
    file: ComparisonFile, kind: str, read: Callable[[ComponentFigures], float]
) -> tuple[Row, ...]:
    return tuple(
        _row(file, part.name, kind, lambda result, at=index: read(result.components[at]))  # type: ignore[misc]
        for index, part in enumerate(file.results[0].components)
    )


def _conductances(file: ComparisonFile) -> tuple[Row, ...]:
    return (
        _row(file, _("To outdoors, without air"), "conductance", lambda r: r.k_outdoors_w_per_k),
        _row(file, _("To the ground"), "conductance", lambda r: r.k_ground_w_per_k),
        _row(file, _("Outdoor air, yearly mean"), "conductance", lambda r: r.k_air_w_per_k),
    )
