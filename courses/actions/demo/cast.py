"""The people of the invented school, with their *stated* true rates. Nobody here exists.

`misses` is the chance that somebody who decides on a dangerous plant would gather it, `confuses` the same for
single species; `leaves` is the chance of leaving a dangerous plant alone; `overlooks` the chance of not
recognising an edible one. Answers are drawn from these rates by seed, so what the rule says of the people can be
compared with what is true of them.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from courses.models import Role

SCHOOL_NAME = "Sallow Bay School of Wild Food"
SCHOOL_REGION = "Sallow Bay and the Quern Hills"
HEMLOCK, DROPWORT, ARUM, LILY = "conium-maculatum", "oenanthe-crocata", "arum-maculatum", "convallaria-majalis"
FOXGLOVE, MERCURY = "digitalis-purpurea", "mercurialis-perennis"


class Company(StrEnum):
    """Which part of the story somebody belongs to."""

    STAFF = "staff"
    LEADERS = "leaders"
    ENDED = "ended course"
    RUNNING = "running course"
    WAITING = "waiting list"


@dataclass(frozen=True)
class Rates:
    """What is true of somebody, though nobody in the school can see it."""

    misses: float = 0.01
    leaves: float = 0.05
    overlooks: float = 0.06
    confuses: dict[str, float] = field(default_factory=dict)

    def miss_rate(self, species: str) -> float:
        """The true chance of gathering this dangerous species when deciding on it."""
        return self.confuses.get(species, self.misses)


@dataclass(frozen=True)
class Part:
    """Somebody in the story."""

    name: str
    company: Company
    roles: tuple[str, ...] = (Role.PARTICIPANT,)
    rates: Rates = Rates()
    address: str = ""
    story: str = ""

    @property
    def email(self) -> str:
        """An address that can never receive mail."""
        return f"{self.address or self.name.lower().replace(' ', '.')}@demo.invalid"


CAREFUL = Rates(misses=0.0, leaves=0.0, overlooks=0.0)
GOOD = Rates(misses=0.01, leaves=0.06, overlooks=0.07)
FAIR = Rates(misses=0.04, leaves=0.10, overlooks=0.15)
SHAKY = Rates(misses=0.12, leaves=0.15, overlooks=0.25)
TIMID = Rates(misses=0.0, leaves=0.60, overlooks=0.45)
RECKLESS = Rates(misses=0.30, leaves=0.0, overlooks=0.05)

STAFF = (
    Part("Maud Thackerwell", Company.STAFF, (Role.ORGANISER,), address="organiser"),
    Part("Orla Wickenshaw", Company.STAFF, (Role.TUTOR,), address="tutor"),
    Part("Bertram Oakhanger", Company.STAFF, (Role.TUTOR, Role.ASSESSOR)),
    Part("Sunniva Larkmoor", Company.STAFF, (Role.ASSESSOR,), address="assessor"),
)
LEADERS = (
    Part("Hesper Quillfeather", Company.LEADERS, rates=CAREFUL, address="leader", story="ready"),
    Part("Anselm Rookwither", Company.LEADERS, rates=CAREFUL, story="first aid lapsed"),
    Part("Tamsin Bellharrow", Company.LEADERS, rates=GOOD, story="assisted too few walks"),
    Part("Ludo Merrowdale", Company.LEADERS, rates=FAIR, story="on the way"),
)
ENDED = (
    Part("Edda Pennycress", Company.ENDED, rates=CAREFUL, story="certified"),
    Part("Corwin Ashpole", Company.ENDED, rates=CAREFUL, story="certified"),
    Part("Jessamy Holmfirst", Company.ENDED, rates=CAREFUL, story="has applied"),
    Part("Rufus Tarnbrook", Company.ENDED, rates=CAREFUL, story="nearly there"),
    Part("Petra Windlestone", Company.ENDED, rates=GOOD),
    Part("Silas Cobblegate", Company.ENDED, rates=FAIR),
    Part("Marigold Fenwhistle", Company.ENDED, rates=TIMID, story="leaves too much"),
    Part("Gideon Marlpit", Company.ENDED, rates=Rates(0.01, 0.05, 0.06, {HEMLOCK: 0.5}), story="confuses one"),
    Part("Una Saltersgill", Company.ENDED, rates=SHAKY),
    Part("Barnaby Crakehall", Company.ENDED, rates=RECKLESS),
)
RUNNING = (
    Part("Wren Applegarth-Low", Company.RUNNING, rates=GOOD, address="participant", story="has a paper open"),
    Part("Dorothea Minchinmoss", Company.RUNNING, rates=CAREFUL),
    Part("Kit Garrowby", Company.RUNNING, rates=Rates(0.01, 0.05, 0.06, {ARUM: 0.45}), story="confuses one"),
    Part("Ottilie Brackenridge", Company.RUNNING, rates=FAIR),
    Part("Jory Penhallick", Company.RUNNING, rates=GOOD),
    Part("Nell Swithinbank", Company.RUNNING, rates=TIMID),
    Part("Amos Ravelstone", Company.RUNNING, rates=SHAKY),
    Part("Linnet Oxgodby", Company.RUNNING, rates=GOOD),
    Part("Fergal Drumlocher", Company.RUNNING, rates=FAIR),
    Part("Ysolde Hartbarrow", Company.RUNNING, rates=CAREFUL),
    Part("Tobiah Lintmill", Company.RUNNING, rates=RECKLESS),
    Part("Cressida Yaxlow", Company.RUNNING, rates=GOOD),
)
WAITING = (
    Part("Hob Farthingale", Company.WAITING),
    Part("Merrin Stobcross", Company.WAITING),
)
EVERYBODY = (*STAFF, *LEADERS, *ENDED, *RUNNING, *WAITING)
LEARNERS = (*LEADERS, *ENDED, *RUNNING)
