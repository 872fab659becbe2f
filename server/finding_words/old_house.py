"""What is said of old houses."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "lead paint": RuleWords(
        title=N_("Lead paint"),
        source=N_(
            "EPA 40 CFR 745, renovation, repair and painting (from memory): certified practice "
            "where more than 6 ft² a room indoors or 20 ft² outdoors are disturbed in a house from"
            " before 1978."
        ),
        told={
            "work on lead paint": (
                N_("The work disturbs paint that holds lead."),
                N_(
                    "Only a certified firm may do it: pamphlet to the household, containment, wet"
                    " methods, cleaning and records."
                ),
            ),
            "work on paint not tested": (
                N_(
                    "The work disturbs paint from before 1978 that was not tested; it is taken to"
                    " hold lead."
                ),
                N_(
                    "Have it tested, or work by certified practice: pamphlet to the household, "
                    "containment, wet methods, cleaning and records."
                ),
            ),
            "work, year not known": (
                N_(
                    "The work disturbs paint, and nobody knows whether the house was built before"
                    " 1978."
                ),
                N_("Find out the year, have the paint tested, or work by certified practice."),
            ),
            "small areas": (
                N_("The work disturbs a little old paint, which may hold lead."),
                N_("Below what the rule calls small, still keep the dust down and children away."),
            ),
            "found": (
                N_("Paint that holds lead was found."),
                N_("Leave sound paint alone; keep children from flaking paint and dust."),
            ),
            "presumed": (
                N_("Paint from before 1978 is taken to hold lead."),
                N_("Have it tested before anything is sanded, cut or drilled."),
            ),
            "year not known": (
                N_("The year built is not known, so old paint may hold lead."),
                N_("Find out the year, or have the paint tested."),
            ),
            "none": (
                N_("The paint was tested and holds no lead."),
                "",
            ),
        },
    ),
    "asbestos and vermiculite": RuleWords(
        title=N_("Asbestos and vermiculite"),
        source=N_("EPA, asbestos in the home and vermiculite insulation (from memory)."),
        told={
            "vermiculite, worked on": (
                N_(
                    "Vermiculite lies in the house; it may hold asbestos, and the work would stir"
                    " it up."
                ),
                N_("Nobody disturbs it before it is tested; removal is licensed work."),
            ),
            "vermiculite": (
                N_("Vermiculite lies in the house; it may hold asbestos."),
                N_("Leave it alone, stay out of it, and have it tested."),
            ),
            "comes off": (
                N_("What comes off may hold asbestos: {materials}."),
                N_("Those licensed for it take it off, whole and wet, and dispose of it."),
            ),
            "drilled through": (
                N_("Holes would be drilled through what may hold asbestos: {materials}."),
                N_(
                    "Do not drill it: fill from inside, or have those licensed for it take it off"
                    " first."
                ),
            ),
            "covered": (
                N_("The work covers and fastens through what may hold asbestos: {materials}."),
                N_(
                    "Have it tested; those licensed for it take it off or fasten through it by "
                    "their rules."
                ),
            ),
            "is there": (
                N_("It may hold asbestos: {materials}. Left whole it does no harm."),
                N_("Do not cut, drill or sand it."),
            ),
            "contradicted": (
                N_(
                    "The survey answers that there is none, and a note of a part tells of asbestos "
                    "or vermiculite."
                ),
                N_(
                    "Nobody disturbs it before a laboratory has said which is true; then mend the "
                    "answer or the note."
                ),
            ),
            "found": (
                N_("Asbestos was found."),
                N_(
                    "Leave it whole; what has to go is taken out by those licensed for it before "
                    "other work begins."
                ),
            ),
            "suspected": (
                N_("Asbestos is suspected."),
                N_("Have it tested before anything is disturbed."),
            ),
            "loose fill not looked at": (
                N_("Nobody has looked whether old loose fill is vermiculite."),
                N_(
                    "Look for grey-brown shiny flakes without touching them, and answer it in the"
                    " survey."
                ),
            ),
            "not looked at": (
                N_(
                    "Nobody has looked for asbestos: old siding, floor tiles, pipe wrap, textured"
                    " ceilings."
                ),
                N_(
                    "Leave what is doubtful alone until a laboratory has tested it, and note it in "
                    "the survey before anything is taken off."
                ),
            ),
            "none": (
                N_("It was tested and no asbestos found."),
                "",
            ),
        },
    ),
    "old wiring": RuleWords(
        title=N_("Old wiring"),
        source=N_(
            "National Electrical Code 394.12 (from memory): knob-and-tube wiring must stay in free"
            " air."
        ),
        told={
            "buried": (
                N_("Knob-and-tube wiring would be buried in insulation: it overheats."),
                N_(
                    "Stop: an electrician replaces it, or certifies that it is dead, before the "
                    "bays are filled."
                ),
            ),
            "found": (
                N_("Knob-and-tube wiring was found."),
                N_("Have an electrician look at it, and keep insulation away from it."),
            ),
            "not looked at, bays filled": (
                N_(
                    "Bays are filled in a house of this age, and nobody has looked for knob-and-"
                    "tube wiring."
                ),
                N_("An electrician looks before anything is blown in; note it in the survey."),
            ),
            "not looked at": (
                N_("Nobody has looked for knob-and-tube wiring."),
                N_("Look in cellar and attic, and note it in the survey."),
            ),
            "contradicted": (
                N_(
                    "The survey answers that the wiring is modern, but a note of a part tells of "
                    "knob-and-tube wiring."
                ),
                N_(
                    "These contradict each other. Look again; where the old wires are dead, have "
                    "an electrician certify it, and answer “replaced or dead”."
                ),
            ),
            "contradicted, bays filled": (
                N_(
                    "Bays are filled; the survey answers that the wiring is modern, but a note of "
                    "a part tells of knob-and-tube wiring."
                ),
                N_(
                    "Nothing is filled before an electrician has looked: the old wires are "
                    "replaced or certified dead, and the survey answers “replaced or dead”."
                ),
            ),
            "modern": (
                N_("The wiring is of a modern kind."),
                "",
            ),
            "replaced": (
                N_("An electrician has replaced the old wiring, or certified that it is dead."),
                N_("Keep the certificate with the papers of the job."),
            ),
        },
    ),
    "chimney": RuleWords(
        title=N_("Chimney"),
        source=N_("IRC R1003 and NFPA 211 (from memory)."),
        told={
            "unlined": (
                N_("A chimney in use has no liner: heat and smoke can pass its joints."),
                N_(
                    "A certified sweep looks at it; line it or put it out of use before "
                    "insulation comes near."
                ),
            ),
            "lined": (
                N_("A lined chimney stays in use."),
                N_("Keep 2 in from wood and insulation to it, and have it swept and looked at."),
            ),
            "none in use": (
                N_("No chimney is in use."),
                "",
            ),
            "not looked at": (
                N_("Nobody has said whether a chimney is in use and lined."),
                N_("Look, and note it in the survey."),
            ),
        },
    ),
}
