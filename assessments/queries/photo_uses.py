"""What holds on to a photograph: looked at before anybody deletes it."""

from dataclasses import dataclass

from django.db.models import Count

from assessments.models import Evidence, Paper, Seen, Voiding
from assessments.models.live import SpotTest
from species.models import Photo, Region


@dataclass(frozen=True)
class PaperUse:
    """A paper for which the specimen was drawn, and in how many sittings."""

    title: str
    sittings: int


@dataclass(frozen=True)
class PhotoUses:
    """Everything that points to a photograph, or to its specimen; people are counted, never named."""

    papers: tuple[PaperUse, ...]
    spot_tests: tuple[str, ...]
    answers: int
    people: int
    voided: bool
    regions: int

    @property
    def is_held(self) -> bool:
        """Whether it has to stay: regions go with the photograph, everything else does not."""
        return bool(self.papers or self.spot_tests or self.answers or self.people or self.voided)


def uses_of_photo(photo: Photo) -> PhotoUses:
    """What uses a photograph; six queries."""
    specimen = photo.specimen_id
    papers = Paper.objects.filter(seats__sitting__questions__specimen=specimen).order_by("pk")
    papers = papers.annotate(number=Count("seats__sitting", distinct=True))
    tests = SpotTest.objects.filter(stations__specimen=specimen).order_by("held_at").distinct()
    seen = Seen.objects.filter(specimen=specimen).values("person").distinct().count()
    return PhotoUses(
        tuple(PaperUse(paper.title, paper.number) for paper in papers),
        tuple(test.title for test in tests),
        Evidence.objects.filter(specimen=specimen).count(),
        seen,
        Voiding.objects.filter(specimen=specimen).exists(),
        Region.objects.filter(photo=photo).count(),
    )
