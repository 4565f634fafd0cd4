"""Whether a question was set aside after it was drawn."""

from assessments.models import Question, Voiding
from species.models import Specimen
from species.rules.vocabulary import Settlement


def is_set_aside(question: Question) -> bool:
    """Whether what it shows is voided, or its name disputed, so that no answer to it counts; one or two queries."""
    shown = question.specimen_ids
    if Voiding.objects.standing().filter(specimen_id__in=shown).exists():
        return True
    return Specimen.objects.filter(pk__in=shown, settlement=Settlement.DISPUTED).exists()
