"""What is said beside the energy code."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "energy code, part by part": RuleWords(
        title=N_("Energy code, part by part"),
        source=N_(
            "IECC 2021 Table R402.1.2 or IECC 2018 Table R402.1.4 (from memory), or the limits put"
            " in their place. In old houses many codes ask less of what is only altered (such as "
            "filling the bays that are open): your local authority decides."
        ),
        told={
            "meets": (
                N_("It is no worse than {edition} asks of a new house in zone {zone}."),
                "",
            ),
            "misses": (
                N_(
                    "Its U is above the one that {edition} asks of a {sort} in a new house of zone "
                    "{zone}."
                ),
                N_(
                    "Ask the local authority whether the alteration has to reach it; if so, show "
                    "that what goes in meets the code's other table, of R between and outside of "
                    "framing, or that the whole house makes up for it, or insulate more here."
                ),
            ),
            "lets in more sun": (
                N_("{edition} lets a {sort} in zone {zone} pass less sun."),
                N_(
                    "Choose glass of a lower solar heat gain coefficient, or ask the local "
                    "authority."
                ),
            ),
            "zone not known": (
                N_("The climate zone of the energy code is not known, so this cannot be judged."),
                N_("Choose a region or a weather station, or give the zone."),
            ),
        },
    ),
    "energy code, whole house": RuleWords(
        title=N_("Energy code, all parts together"),
        source=N_(
            "Total of U times area, IECC R402.1.5 (from memory), walls, roofs, floors and windows; "
            "slabs and air are held elsewhere. A guide: your local authority decides."
        ),
        told={
            "within": (
                N_(
                    "All parts together lose no more than {edition} lets a new house lose in zone"
                    " {zone}."
                ),
                "",
            ),
            "above": (
                N_(
                    "All parts together lose more than {edition} lets a new house lose in zone "
                    "{zone}."
                ),
                N_(
                    "An old house need not be a new one; ask the local authority what the "
                    "alteration has to reach."
                ),
            ),
        },
    ),
    "slab edge by the code": RuleWords(
        title=N_("Insulation at the slab edge"),
        source=N_(
            "IECC 2021 Table R402.1.3, unheated slab (as published by a national building-science"
            " programme); 2018 from memory. A guide: your local authority decides."
        ),
        told={
            "enough": (
                N_("The slab edge is insulated as zone {zone} asks of a new house."),
                "",
            ),
            "thin": (
                N_("Zone {zone} asks R-10 at the slab edge of a new house."),
                N_("Take thicker board if the local authority asks for it."),
            ),
            "shallow": (
                N_(
                    "Zone {zone} asks R-10 down to {depth} of a new house; the work goes down "
                    "{extent}."
                ),
                N_("Go deeper if the local authority asks for it."),
            ),
        },
    ),
}
