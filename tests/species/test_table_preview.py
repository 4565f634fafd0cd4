"""What a look at a change asks of the database, and that it says the same as the rule over the whole flora."""

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext

from species.models import Character, Species
from species.queries.table_cells import cell
from species.queries.table_facts import pairs_with_lists, table_facts
from species.queries.table_preview import all_disagreements, months_in_words, preview
from species.rules.separation import Relation, Score, comparison
from species.rules.table_changes import changes
from species.rules.vocabulary import Frequency

pytestmark = pytest.mark.django_db
BARE = [Score("none", Frequency.ALWAYS)]


@pytest.fixture(autouse=True)
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def test_the_flora_that_comes_with_the_program_contradicts_no_list() -> None:
    assert all_disagreements() == []


def test_what_the_table_says_already_changes_nothing() -> None:
    hemlock, marks = Species.objects.get(key="conium-maculatum"), Character.objects.get(key="stem_marks")
    found = preview({(hemlock.key, marks.key): cell(hemlock, marks).scores})
    assert not found.says_anything


def test_it_asks_as_often_for_one_pair_as_for_all() -> None:
    def asked(species: int | None) -> int:
        with CaptureQueriesContext(connection) as queries:
            preview({("conium-maculatum", "stem_marks"): BARE}, species)
        return len(queries)

    arum = Species.objects.get(key="arum-maculatum").pk
    assert asked(arum) == asked(None)


def test_every_loss_and_gain_is_one_of_the_rule() -> None:
    """Character by character, for hemlock whose stem hairs are not known: the slow way and the fast one."""
    before = table_facts(pairs_with_lists())
    emptied = {key: each for key, each in before.scores["conium-maculatum"].items() if key != "stem_hairs"}
    after = before.with_scores("conium-maculatum", emptied)
    lost = {(each.pair, each.combination, each.character) for each in changes(before, after) if each.is_lost}
    slow = set()
    for pair in before.pairs:
        for combination in pair.combinations:
            was, becomes = (
                comparison(f.characters.values(), f.scores[pair.gathered], f.scores[pair.mistaken], combination)
                for f in (before, after)
            )
            slow |= {(pair.key, combination, key) for key in set(was.separates) - set(becomes.separates)}
    assert lost == slow
    assert all(each.after == Relation.UNKNOWN for each in changes(before, after))
    assert changes(before, after)


def test_months_are_runs_in_words() -> None:
    assert months_in_words([1, 2, 11, 12, 5]) == "May, November to February"
    assert months_in_words(range(1, 13)) == "all year"
