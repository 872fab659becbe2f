"""The recipe that fills what is empty and leaves the boundary where it is."""

from __future__ import annotations

from server.recipes.bays import fill
from server.recipes.plan import Plan
from server.recipes.survey import Survey

TIGHTNESS = 0.75  # dense-packing and sealing from inside, common practice


def plan(survey: Survey) -> Plan:
    """Every part between inside and all else, filled where it can be."""
    changes = {part.name: fill(survey, part) for part in survey.bounding(survey.inside)}
    return Plan(
        tightness=TIGHTNESS,
        changes={name: change for name, change in changes.items() if change is not None},
    )
