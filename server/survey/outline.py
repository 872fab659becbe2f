"""From the short form to a whole house, as a house file."""

from __future__ import annotations

from typing import Any

from server.files.house_file import FORMAT, HouseFile
from server.survey.checks import Checked, checked
from server.survey.errors import OutlineError
from server.survey.figures import typed
from server.survey.form import Outline
from server.survey.openings import openings_of
from server.survey.parts import ATTIC, Parts
from server.survey.shape import Shape, shape_of
from server.survey.usual import default_outline

__all__ = ["Outline", "OutlineError", "default_outline", "house_from_outline"]

HEATING_SET_POINT, COOLING_SET_POINT = "70 degF", "75 degF"
COOLING_EFFICIENCY = 3.2
_DISTRIBUTION = {"basement": 0.85, "crawlspace": 0.8, ATTIC: 0.8}  # of ducts in there; guesses
# Invented, as the demo house's; a local rate is typed over them.
_PRICES = {
    "natural gas": "1.40 USD/therm",
    "propane": "0.10 USD/kWh",
    "heating oil": "0.09 USD/kWh",
    "electricity": "0.14 USD/kWh",
}
# Of what is burned, and of a middling grid; from memory.
_CARBON = {
    "natural gas": "0.181 kg/kWh",
    "propane": "0.215 kg/kWh",
    "heating oil": "0.25 kg/kWh",
    "electricity": "0.36 kg/kWh",
}


def house_from_outline(outline: Outline) -> HouseFile:
    """The house file of an outline: no strategies yet, gains as METHODS has them for any house.

    Areas are overall internal ones. What was typed and goes straight into the file keeps its text
    and basis; what was worked out is measured only if everything behind it was.
    Raises OutlineError, nothing else.
    """
    answers = checked(outline)
    shape = shape_of(answers)
    parts = Parts(answers, shape, openings_of(answers, shape))
    components = parts.components()
    used = {each["assembly"] for each in components}
    return HouseFile.model_validate(
        {
            "format": FORMAT,
            "name": outline.name,
            **({} if outline.year_built is None else {"year_built": outline.year_built}),
            "climate": {"region": outline.region},
            "set_points": {"heating": HEATING_SET_POINT, "cooling": COOLING_SET_POINT},
            "floor_area": shape.floor_area.entry("area", answers.system),
            "bedrooms": outline.bedrooms,
            "storeys": outline.storeys,
            "spaces": parts.spaces(),
            "air": {"ach50": answers.entries["ach50"]},
            **_plants(answers, shape),
            "assemblies": {
                # copied, since a stored house gives its parts keys
                each.name: each.assembly.model_copy(deep=True)
                for each in answers.built.values()
                if each.name in used
            },
            "components": components,
            "junctions": parts.junctions(),
        }
    )


def _plants(answers: Checked, shape: Shape) -> dict[str, Any]:
    """Heating, cooling, and the prices and carbon of their fuels."""
    outline = answers.outline
    ducts = _ducts(answers, shape)
    efficiency = answers.entries["heating_efficiency"]
    plants = {"heating": {"fuel": outline.fuel, "efficiency": efficiency, **ducts}}
    fuels = dict.fromkeys([outline.fuel])
    if outline.cooling:
        cooling = typed(None, COOLING_EFFICIENCY, "guess")
        plants["cooling"] = {"fuel": "electricity", "efficiency": cooling, **ducts}
        fuels["electricity"] = None
    return plants | {
        "prices": {fuel: typed("price_of_energy", _PRICES[fuel], "guess") for fuel in fuels},
        "carbon": {fuel: typed("carbon_of_energy", _CARBON[fuel], "default") for fuel in fuels},
    }


def _ducts(answers: Checked, shape: Shape) -> dict[str, Any]:
    """Ducts lie below the floor where there is room, else in the attic; without either, inside."""
    if not answers.outline.ducts:
        return {}
    space = answers.outline.foundation
    where: str | None = space
    if space == "slab":
        where = None if shape.roof.attic_volume is None else ATTIC
    if where is None:
        return {}
    return {"distribution": typed(None, _DISTRIBUTION[where], "guess"), "ducts_in": where}
