"""What is said of water vapour in walls and roofs."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "interstitial": RuleWords(
        title=N_("Water inside walls and roofs, month by month"),
        source=N_(
            "ISO 13788:2012 clause 6, diffusion only, indoor humidity by its Annex A (memory); "
            "0.5 kg/m² after DIN 4108-3 (memory). Rain, sun, wind and air leaks are not in it."
        ),
        told={
            "dry": (N_("No month of a usual year condenses water inside."), ""),
            "dries": (
                N_(
                    "In winter up to {water} of water gathers at the inner face of {where}; it "
                    "dries again in summer."
                ),
                N_(
                    "Keep indoor air out of the construction and the rooms at a usual humidity; "
                    "insulation outside of {where} would keep it warm and dry."
                ),
            ),
            "dries, too much": (
                N_(
                    "In winter {water} of water gathers at the inner face of {where}. It dries in "
                    "summer, but that is more than boards should take up."
                ),
                N_(
                    "Put a tighter vapour layer on the room side, or insulation outside of "
                    "{where}, or a vented gap there."
                ),
            ),
            "stays wet": (
                N_(
                    "Water gathers at the inner face of {where}, up to {water}, and {remaining} of "
                    "it is still there after a year: this rots."
                ),
                N_(
                    "Do not build it so: put a tight vapour layer on the room side, or a layer "
                    "outside that lets vapour through, or enough insulation outside of {where}."
                ),
            ),
            "humidity not known": (
                N_("The climate tells no humidity of the air, so this cannot be judged."),
                N_("Choose a climate with humidity."),
            ),
            "layers not known": (
                N_("Only its U is known, not its layers, so this cannot be judged."),
                N_("Describe its layers."),
            ),
            "vapour not known": (
                N_("No vapour figure is known of {layers}, so this cannot be judged."),
                N_("Give the material a vapour resistance factor, or choose a known one."),
            ),
        },
    ),
}
