"""What is stored of papers, sittings, live checks and evidence."""

from .adjustments import Adjustment
from .appeals import Appeal, AppealStep
from .evidence import Evidence, Seen, Voiding
from .live import IdentityCheck, SpotTest, Station
from .notices import Notice
from .packages import PackageRun
from .papers import Answer, Paper, Question, Seat, Sitting
from .periods import Period, Window
from .practice import PracticeRound, PracticeState, PracticeTurn
from .standards import Standard, StandardPair, StandardSpecies
from .standings import KeptLedger, KeptStanding

__all__ = [
    "Adjustment",
    "Answer",
    "Appeal",
    "AppealStep",
    "Evidence",
    "IdentityCheck",
    "KeptLedger",
    "KeptStanding",
    "Notice",
    "PackageRun",
    "Paper",
    "Period",
    "PracticeRound",
    "PracticeState",
    "PracticeTurn",
    "Question",
    "Seat",
    "Seen",
    "Sitting",
    "SpotTest",
    "Standard",
    "StandardPair",
    "StandardSpecies",
    "Station",
    "Voiding",
    "Window",
]
