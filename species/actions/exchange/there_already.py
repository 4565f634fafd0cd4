"""Specimens that are there already: an archive never changes them, but where it says more, that is said."""

from collections import defaultdict
from collections.abc import Iterator

from species.actions.exchange.people import id_in_school
from species.models import Determination, Photo, Specimen
from species.queries.archive_people import id_of
from species.rules.darwin.facts import SpecimenFacts
from species.rules.darwin.layouts import IDENTIFICATIONS, MEDIA, OCCURRENCES
from species.rules.darwin.slips import Notes, Remark


class ThereAlready:
    """What is stored of every specimen, by key, as far as an archive is compared with it; three queries."""

    def __init__(self, notes: Notes) -> None:
        self.notes = notes
        self.finds = {key: (day, stage) for key, day, stage in Specimen.objects.values_list("key", "seen_on", "stage")}
        self.opinions: dict[str, set[tuple[str, str]]] = defaultdict(set)
        for row in Determination.objects.select_related("specimen", "determiner", "link"):
            self.opinions[row.specimen.key].add((id_of(row), row.said))
        self.pictures = set(Photo.objects.values_list("key", flat=True))

    def __contains__(self, key: str) -> bool:
        return key in self.finds

    def compare(self, facts: SpecimenFacts) -> None:
        """Remark on a specimen of which the archive says something that is not stored."""
        if files := ", ".join(self._differing(facts)):
            self.notes.add(Remark.DIFFERS, OCCURRENCES.file, facts.row, value=facts.key, files=files)

    def _differing(self, facts: SpecimenFacts) -> Iterator[str]:
        if self.finds[facts.key] != (facts.seen_on, facts.stage.value if facts.stage else ""):
            yield OCCURRENCES.file
        said = {(id_in_school(each), each.said.strip()) for each in facts.opinions}
        if not said <= self.opinions[facts.key]:
            yield IDENTIFICATIONS.file
        if {each.id for each in facts.pictures if each.path} - self.pictures:
            yield MEDIA.file
