"""Histories drawn at random: few plants, places and moments, so that every kind of repetition comes up."""

from datetime import timedelta

from hypothesis import strategies as st

from assessments.rules.evidence import AnswerFacts, Decision, Medium, SpecimenFacts
from assessments.rules.standard import PARTICIPANT, PairFacts, Side, WindowFacts

from .specimens import HEMLOCK_PAIR, LILY_PAIR, PERIOD_END, START, standard

DAY = timedelta(days=1)
WINDOWS = (
    WindowFacts(1, START + DAY, PERIOD_END),
    WindowFacts(2, START + 3 * DAY, PERIOD_END),
    WindowFacts(3, START + 5 * DAY, START + 7 * DAY),
)
STAGES = ("rosette", "flower", "root")
STANDARD = standard(
    HEMLOCK_PAIR,
    LILY_PAIR,
    PairFacts("cicely-hemlock", "cicely", "hemlock", edible_stages=("rosette", "flower")),
    bars=PARTICIPANT,
    recognise_only=frozenset({"ramsons"}),
)
LEDGERS = [(species, side) for side in Side for species in STANDARD.species(side)]


@st.composite
def an_answer(draw: st.DrawFn, species: str) -> AnswerFacts:
    """One answer to one of ten plants of a species, on one of eight days; plants 0 to 4 stand in one place."""
    plant, photo = draw(st.integers(0, 9)), draw(st.integers(0, 1))
    decision = draw(st.sampled_from([Decision.REFUSE, Decision.REFUSE, Decision.GATHER, Decision.LEAVE, None]))
    opened = START + draw(st.integers(0, 8)) * DAY
    place = f"bank{plant // 5}"
    specimen = SpecimenFacts(
        f"{species}{plant}.{photo}",
        f"{species}{plant}",
        species,
        draw(st.sampled_from(STAGES)),
        draw(st.sampled_from([place, place, f"lane{plant}"])),
        (START + draw(st.sampled_from([0, 0, 1])) * DAY).date(),
        void=draw(st.integers(0, 9)) == 9,
    )
    return AnswerFacts(
        specimen,
        decision,
        opened,
        draw(st.integers(1, 4)),
        opened + draw(st.sampled_from([0, 1, 24, 48])) * timedelta(hours=1),
        named_species=draw(st.sampled_from([species, species, "cow-parsley", "dandelion", None])),
        medium=draw(st.sampled_from(Medium)),
        kind=draw(st.sampled_from(["name_and_decide"] * 4 + ["side_by_side"])),
        annulled=draw(st.integers(0, 9)) == 9,
    )


@st.composite
def a_history(draw: st.DrawFn) -> tuple[str, Side, list[AnswerFacts]]:
    """A ledger of the standard, and answers to its species in any order."""
    species, side = draw(st.sampled_from(LEDGERS))
    return species, side, draw(st.lists(an_answer(species), max_size=24))
