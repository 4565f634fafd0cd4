"""What is known of one answer by one person to one specimen, and how the rules read it.

The way through this folder, low to high. Everything is pure: plain values in, named frozen objects out.

- ``evidence``  SpecimenFacts, AnswerFacts: the facts. Hand in *everything* a person ever answered in
  assessments, from every period: the first answer decides, so the rules must know it.
- ``standard``  StandardFacts, PairFacts, SideBar, WindowFacts; PARTICIPANT and WALK_LEADER hold the numbers.
- ``names``     SpeciesNames and NameBook: what somebody said, against what the plant is -> NameKind.
- ``treatment`` how each answer is treated, with a reason code -> Treatment.
- ``ledger``    Ledger: one species, its treatments, and its counts per window.
- ``evalue``    the e-value, what is needed and still needed (exact integers), the upper limit.
- ``windows``   weights, periods, whether another window may be opened.
- ``live``, ``stages``, ``pairs``  what a pair asks beyond its two ledgers.
- ``standing``  ``standing(standard, answers, windows, names) -> Standing``: ledgers, pairs, passed, gaps.
- ``assembly``, ``shortfall``, ``order``  a paper drawn to a blueprint, or what is missing for it.
- ``planning``  how many specimens it takes, before anybody starts.

Keys of species, specimens, individuals, localities and stages are strings of the caller's choosing.
"""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum


class Decision(StrEnum):
    """What somebody would do with the plant in front of them."""

    GATHER = "gather"
    REFUSE = "refuse"
    LEAVE = "leave"


class Confidence(StrEnum):
    """How sure somebody said they were."""

    SURE = "sure"
    FAIRLY = "fairly"
    UNSURE = "unsure"


class Medium(StrEnum):
    """How the specimen was shown."""

    PHOTO = "photo"
    LIVE = "live"


@dataclass(frozen=True, slots=True)
class SpecimenFacts:
    """One specimen as it is determined today.

    ``species`` is None while the determination is single, disputed or missing: then it counts for nobody.
    ``individual`` is the plant or patch it belongs to (its own key where none is known).
    ``void`` is true once the whole specimen was voided. ``drawn`` marks a drawing, which is never evidence
    unless the standard says that drawings count (in the demo school only).
    """

    key: str
    individual: str
    species: str | None
    stage: str
    locality: str
    day: date
    void: bool = False
    drawn: bool = False


@dataclass(frozen=True, slots=True)
class AnswerFacts:
    """One answer by one person to one specimen.

    ``decision`` is None when the question was shown and never answered. ``named_species`` is the key of the
    species chosen, ``named_genus`` a genus chosen without a species, ``said`` the text as typed; all three
    may be empty ("I don't know"). ``kind`` is the key of a question kind (``kinds.catalogue``).
    ``occasion`` names the spot test of a live answer. Order is by ``opened_at`` (the paper was opened, the
    spot test was held), then ``position``; windows go by ``shown_at``. ``annulled`` marks an answer from a
    sitting that was annulled as a whole.
    """

    specimen: SpecimenFacts
    decision: Decision | None
    opened_at: datetime
    position: int
    shown_at: datetime
    named_species: str | None = None
    named_genus: str | None = None
    said: str = ""
    confidence: Confidence | None = None
    medium: Medium = Medium.PHOTO
    kind: str = "name_and_decide"
    occasion: str | None = None
    annulled: bool = False


def in_order(answers: "tuple[AnswerFacts, ...] | list[AnswerFacts]") -> list[AnswerFacts]:
    """Answers in the order in which they count: paper or spot test, then position; delivery never decides."""
    return sorted(answers, key=lambda a: (a.opened_at, a.position, a.shown_at, a.specimen.key))
