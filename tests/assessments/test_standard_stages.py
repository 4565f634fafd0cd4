"""The stages of a standard's edible species: shared by all its pairs, and refused where there is none."""

from datetime import date

import pytest
from django.core.management import call_command

from assessments.actions.default_standards import make_default_standards
from assessments.actions.standards import StandardIncomplete, make_standard, put_to_use
from assessments.models import Standard, StandardPair, StandardSpecies
from assessments.queries.default_stages import StagesAsked, default_stages
from assessments.queries.standards import standard_facts
from assessments.rules.standard import PARTICIPANT, Side
from assessments.rules.treatment import stages_that_count
from species.models import Pair

pytestmark = pytest.mark.django_db
RAMSONS = "allium-ursinum"
TODAY = date(2031, 4, 1)


@pytest.fixture(autouse=True)
def _flora() -> None:
    call_command("load_flora", verbosity=0)


def defaults() -> tuple[Standard, Standard]:
    return make_default_standards(list(Pair.objects.core().with_both_species()), None)


def draft_over(stages: dict[str, tuple[str, ...]]) -> Standard:
    """A draft over pairs of ramsons, edible in these stages by key of the pair."""
    draft = make_standard(
        "draft", "Draft", PARTICIPANT, list(Pair.objects.filter(key__in=stages)), by=None, purpose="p", reasons="r"
    )
    StandardSpecies.objects.filter(standard=draft).delete()
    for key, edible in stages.items():
        StandardPair.objects.filter(standard=draft, pair__key=key).update(edible_stages=list(edible))
    return draft


def test_a_ramsons_leaf_beside_lily_leaves_counts_under_no_default_standard() -> None:
    """Its leaf can be told from three lookalikes; from lily-of-the-valley it cannot, so leaving it is right."""
    asked = default_stages(list(Pair.objects.filter(gathered__key=RAMSONS)))
    assert "rosette" in asked["ramsons-arum"].gathered
    assert "rosette" not in asked["ramsons-lily"].gathered
    for standard in defaults():
        assert stages_that_count(RAMSONS, standard_facts(standard)) == {"flower"}


def test_every_edible_species_of_the_default_standards_counts_in_some_stage() -> None:
    for standard in defaults():
        facts = standard_facts(standard)
        assert all(stages_that_count(key, facts) != frozenset() for key in facts.species(Side.EDIBLE))
        assert put_to_use(standard, TODAY).in_use_since == TODAY


def test_a_draft_in_which_a_species_counts_in_no_stage_is_not_put_to_use_and_says_why() -> None:
    draft = draft_over({"ramsons-lily": ("flower",), "ramsons-arum": ("rosette",)})
    with pytest.raises(StandardIncomplete, match="In no stage can ramsons be told from all its lookalikes"):
        put_to_use(draft, TODAY)
    StandardPair.objects.filter(standard=draft, pair__key="ramsons-lily").update(edible_stages=["rosette", "flower"])
    assert put_to_use(draft, TODAY).in_use_since == TODAY


def test_where_the_pairs_share_no_stage_the_species_is_asked_for_by_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    apart = {"ramsons-lily": StagesAsked((), ("flower",)), "ramsons-arum": StagesAsked((), ("rosette",))}
    monkeypatch.setattr("assessments.actions.standards.default_stages", lambda pairs: apart)
    pairs = list(Pair.objects.filter(key__in=apart))
    draft = make_standard("draft", "Draft", PARTICIPANT, pairs, by=None, purpose="p", reasons="r")
    facts = standard_facts(draft)
    assert RAMSONS in facts.recognise_only
    assert stages_that_count(RAMSONS, facts) is None
