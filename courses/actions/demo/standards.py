"""The two standards of the invented school, over the pairs that the botany proposes."""

from datetime import date

from assessments.actions.default_standards import make_default_standards
from assessments.actions.standards import put_to_use
from assessments.models import Standard
from courses.models import Person
from species.models import Pair


def make_standards(organiser: Person, today: date) -> dict[str, Standard]:
    """Participant and walk leader by key, put to use."""
    pairs = list(Pair.objects.core().with_both_species())
    made = make_default_standards(pairs, organiser.user)
    return {standard.key: put_to_use(standard, today) for standard in made}
