"""What an answer counts as, and why, in words."""

from django.utils.translation import gettext_lazy as _

from assessments.rules.treatment import Effect, Reason

EFFECTS = {
    Effect.CLEAN: _("clean"),
    Effect.MISS: _("a miss"),
    Effect.NEUTRAL: _("neither for nor against"),
    Effect.NONE: _("does not count"),
}
EDIBLE_EFFECTS = {**EFFECTS, Effect.CLEAN: _("recognised"), Effect.MISS: _("not recognised")}
REASONS = {
    Reason.GATHERED_DANGEROUS: _("Dangerous, and it would have been gathered: a miss, under whatever name."),
    Reason.REFUSED_AND_NAMED: _("Left where it grows, and named rightly."),
    Reason.REFUSED: _("Left where it grows; on this side the name does not matter."),
    Reason.REFUSED_AS_EDIBLE: _(
        "Left where it grows, but taken for the plant that one gathers: safe, and no knowledge either."
    ),
    Reason.LEFT: _("Left alone because it could not be told: that is safe, and shows no knowledge."),
    Reason.UNANSWERED: _("Shown, and not answered."),
    Reason.RECOGNISED: _("Named rightly, and would be gathered."),
    Reason.RECOGNISED_BY_NAME: _("Named rightly; this plant is asked for by its name alone."),
    Reason.NAMED_WRONGLY: _("Taken for another plant."),
    Reason.NAMED_GENUS_ONLY: _("Only the genus was named, and the species is asked for."),
    Reason.NOT_NAMED: _("Not named."),
    Reason.REFUSED_EDIBLE: _("It may be gathered, and was refused."),
    Reason.ANSWERED_BEFORE: _("The same plant was answered before, and the first answer decides."),
    Reason.GATHERED_BEFORE: _("The same plant would have been gathered before: together that is one miss."),
    Reason.GATHERED_LATER: _("The same plant would have been gathered later: that miss counts in its place."),
    Reason.TWO_FROM_THERE_ALREADY: _("Two plants from this place and day count already."),
    Reason.KIND_DOES_NOT_COUNT: _("This kind of question is for learning; it does not count."),
    Reason.STAGE_DOES_NOT_COUNT: _("At this stage it is not gathered, or cannot be told: it does not count."),
    Reason.OUTSIDE_EVERY_WINDOW: _("Shown outside every window of evidence of this period."),
    Reason.SPECIMEN_VOID: _("The question was taken back, for everybody."),
    Reason.SPECIMEN_NOT_SETTLED: _("Two people have not yet agreed on what this plant is."),
    Reason.SITTING_ANNULLED: _("The sitting was annulled."),
    Reason.DRAWING: _("A drawing, which is never evidence."),
    Reason.NOT_IN_STANDARD: _("No dangerous pair of this standard has this plant in it."),
}


def effect_word(effect: Effect, edible: bool = False) -> str:
    """What an answer counts as; on the edible side a miss is called *not recognised*."""
    return str((EDIBLE_EFFECTS if edible else EFFECTS)[effect])


def reason_sentence(reason: Reason) -> str:
    """Why an answer counts as it does."""
    return str(REASONS[reason])
