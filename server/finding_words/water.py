"""What is said of water, insects and soil gas."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "water first": RuleWords(
        title=N_("Water at the house"),
        source=N_("Common practice: insulation is closed up over dry parts only."),
        told={
            "wet part": (
                N_("It was found wet. Nothing may be closed up over it."),
                N_(
                    "Find where the water comes from, stop it, let it dry and look again. No "
                    "calculation stands in for that."
                ),
            ),
            "damp part": (
                N_("It was found damp."),
                N_("Find where the water comes from and let it dry before anything is closed up."),
            ),
            "told of water": (
                N_("The survey says of it: {words}."),
                N_(
                    "Find out whether water still comes in, and mend that first. Then say in the "
                    "survey whether it is dry."
                ),
            ),
            "wet below grade, worked on": (
                N_("The walls below grade are wet and the work would close them in."),
                N_(
                    "Stop: drain, gutters, grade and a dry season first. A wet wall below grade "
                    "is not a matter of calculation."
                ),
            ),
            "wet below grade": (
                N_("The walls below grade are wet."),
                N_("Gutters, grade and drains first; keep the cellar's air out of the house."),
            ),
            "damp below grade": (
                N_("The walls below grade are damp."),
                N_(
                    "Mend gutters and grade, and watch them for a wet season before they are "
                    "covered from inside."
                ),
            ),
            "dry below grade": (
                N_("The walls below grade were found dry."),
                "",
            ),
            "dry below grade, noted otherwise": (
                N_(
                    "The survey answers that the walls below grade are dry, but notes of them say:"
                    " {words}."
                ),
                N_(
                    "These contradict each other. Look again, and say at each of these walls how "
                    "wet it is; salts left from before count as dry only once that is answered."
                ),
            ),
            "below grade not looked at": (
                N_("Nobody has said whether the walls below grade are dry."),
                N_("Look for tide marks, salts and smell after rain, and note it in the survey."),
            ),
            "gutters: leaking": (
                N_("The gutters leak."),
                N_("Mend them before the walls are closed up."),
            ),
            "gutters: missing": (
                N_("There are no gutters."),
                N_("Hang gutters that lead the water away, or drain the ground along the walls."),
            ),
            "ground_slope: level": (
                N_("The ground along the house is level."),
                N_("Slope it away: 6 in within the first 10 ft (IRC R401.3, from memory)."),
            ),
            "ground_slope: toward the house": (
                N_("The ground slopes toward the house, so rain runs to the walls."),
                N_(
                    "Slope it away: 6 in within the first 10 ft (IRC R401.3, from memory), or "
                    "drain it."
                ),
            ),
            "flashing: doubtful": (
                N_("Flashing at windows, roofs or chimney is doubtful."),
                N_("Renew it before any insulation goes in behind it."),
            ),
            "flashing: doubtful, cladding off": (
                N_("Flashing at windows, roofs or chimney is doubtful."),
                N_(
                    "Renew it while the cladding is off; without that no insulation goes in "
                    "behind it."
                ),
            ),
            "flashing: doubtful, cladding stays": (
                N_("Flashing at windows, roofs or chimney is doubtful, and the cladding stays on."),
                N_(
                    "Renew it from outside, taking up only the courses and trim that cover it, or "
                    "leave the parts below it unfilled: no insulation goes in behind it before."
                ),
            ),
            "not looked at": (
                N_("Not looked at yet: {questions}."),
                N_("Look, and note it in the survey, before anything is closed up."),
            ),
            "kept off": (
                N_("Gutters, ground and flashing keep rain away from the house."),
                "",
            ),
            "kept off, noted otherwise": (
                N_(
                    "The survey answers that gutters and flashing are sound, but notes of parts "
                    "say: {words}."
                ),
                N_("These contradict each other. Look again, and answer it anew or mend the note."),
            ),
        },
    ),
    "crawlspace ground": RuleWords(
        title=N_("Ground under the floor"),
        source=N_("IRC R408 (from memory): bare ground is covered."),
        told={
            "covered": (
                N_("The ground under the floor is covered."),
                "",
            ),
            "bare": (
                N_("The ground under the floor is bare, so its water goes into the floor."),
                N_(
                    "Cover it with a sheet lapped 6 in and turned up at the walls, before the "
                    "floor is insulated."
                ),
            ),
            "bare, comes inside": (
                N_(
                    "The ground under the floor is bare, and the space over it comes inside: what "
                    "the soil gives off goes into the house."
                ),
                N_(
                    "Cover it before anything is closed: a 6-mil sheet, laps 6 in and sealed, 6 in"
                    " up the walls and sealed there (IRC R408.3, from memory)."
                ),
            ),
            "not looked at": (
                N_("Nobody has said whether the ground under the floor is covered."),
                N_("Look, and note it in the survey."),
            ),
        },
    ),
    "insects at grade": RuleWords(
        title=N_("Insects at grade"),
        source=N_(
            "IRC R318.4 (read in part): where termites are very many, no foam outside of "
            "foundations or under slabs; 6 in between foam and soil."
        ),
        told={
            "in the soil": (
                N_("Board at the foundation or under the slab hides the way termites take."),
                N_(
                    "Keep 6 in between soil and any foam that can be kept off it, and leave a "
                    "strip of bare foundation to look at, or have a licensed inspector say how."
                ),
            ),
            "in the soil, many termites": (
                N_(
                    "Board goes into the soil, and this zone has many termites: the code allows "
                    "no foam there without protection."
                ),
                N_(
                    "Keep foam out of the soil, or use what the code accepts, and have a licensed"
                    " inspector look every year."
                ),
            ),
            "inside the foundation": (
                N_("Board covers the foundation from inside and hides what comes up on it."),
                N_("Leave a strip of bare masonry below the sill to look at."),
            ),
            "signs": (
                N_("Signs of termites were seen."),
                N_("Stop until a licensed inspector has looked and the insects are dealt with."),
            ),
            "not looked at": (
                N_("Nobody has looked for termites."),
                N_(
                    "Look for mud tubes at the foundation and hollow sills, and answer it in the "
                    "survey."
                ),
            ),
        },
    ),
    "radon": RuleWords(
        title=N_("Radon from the soil"),
        source=N_("EPA, A Citizen's Guide to Radon: act at 4 pCi/L (from memory)."),
        told={
            "low": (
                N_("Radon was below 4 pCi/L. A tighter house can hold more of it."),
                N_("Measure again after the work."),
            ),
            "high": (
                N_("Radon was 4 pCi/L or more."),
                N_("A certified radon contractor lowers it first; measure again after the work."),
            ),
            "not tested": (
                N_("Radon was not measured, and a tighter house can hold more of it."),
                N_("Measure before and after the work; a test kit costs little."),
            ),
        },
    ),
}
