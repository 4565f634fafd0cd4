"""Sheets of pairs, field cards and calendars: one page, every fact of the page, tagged, embedded, the same bytes."""

from dataclasses import replace
from datetime import date
from html import unescape

import pytest
from django.core.management import call_command
from django.urls import reverse

from species.documents.calendar import draw_calendar
from species.documents.field_card import draw_field_card
from species.documents.flow import DoesNotFit
from species.documents.fonts import CannotPrint
from species.documents.pair_sheet import draw_pair_pocket, draw_pair_sheet
from species.documents.pair_words import Letterhead, PairWords
from species.models import Pair, Species
from species.queries.calendar_words import calendar_words
from species.queries.field_card_words import field_card_words
from species.queries.pair_page import PairPage, pair_page
from species.queries.pair_words import pair_words
from species.queries.season import season_page
from species.rules.vocabulary import Use
from tests.factories.species import SpecimenFactory, give_picture
from tests.species.printed import (
    assert_can_be_read_aloud,
    assert_fonts_are_embedded,
    assert_inside,
    elements_of,
    pages_of,
    squeezed,
    text_of,
)

HEAD_DAY = date(2026, 4, 20)
HEAD = Letterhead("Alder Holt School", "If you suspect poisoning, call 112 at once, and keep a piece of the plant.")


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def page_of(key: str, month: int = 6, number: int | None = None) -> PairPage:
    rows = Pair.objects.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    return pair_page(rows.get(key=key), month, number)


def card_of(key: str) -> bytes:
    plant = Species.objects.prefetch_related("common_names", "synonyms").get(key=key)
    return draw_field_card(field_card_words(plant, HEAD))


def give_pictures(key, stage):
    pair = Pair.objects.get(key=key)
    for species in (pair.gathered, pair.mistaken):
        give_picture(SpecimenFactory(species=species, use=Use.TEACHING.value, stage=stage))


def test_every_pair_fits_its_sheets_in_its_fullest_stage(flora):
    for pair in Pair.objects.all():
        pages = [page_of(pair.key, 6, number) for number in range(len(pair.stage_combinations))]
        fullest = max(pages, key=lambda page: len(page.decisive + page.supporting + page.underground))
        words = pair_words(fullest, HEAD)
        sheet, pocket = draw_pair_sheet(words), draw_pair_pocket(words)
        assert pages_of(sheet) == 1, pair.key
        assert pages_of(pocket) <= 2, pair.key
        assert_inside(sheet, 34)
        assert_inside(pocket, 15)


def facts_on(page: PairPage) -> list[str]:
    signs = page.decisive + page.supporting + page.underground
    return [
        page.pair.rule, page.month.sentence, page.pair.gathered.name, page.pair.mistaken.name, HEAD.call,
        *(text for sign in signs for text in (sign.name, sign.gathered, sign.mistaken, sign.note, sign.one_way)),
        *(text for sign in page.never for text in (sign.name, sign.note)),
        *(text for sign in page.unseen for text in (sign.name, sign.when)),
        page.pair.what_goes_wrong, page.pair.where_together, page.pair.third_species,
        *(each.mistaken.common_name for each in page.others),
    ]  # fmt: skip


@pytest.mark.parametrize("draw", [draw_pair_sheet, draw_pair_pocket])
@pytest.mark.parametrize("key", ["cowparsley-hemlock", "ramsons-lily", "bilberry-nightshade", "nettle-deadnettle"])
def test_every_fact_of_the_page_stands_on_the_paper(flora, draw, key):
    page = page_of(key)
    text = text_of(draw(pair_words(page, HEAD))).casefold()
    assert [fact for fact in facts_on(page) if squeezed(fact).casefold() not in text] == []


def test_a_sheet_can_be_read_aloud_with_its_pictures_and_its_table(flora):
    give_pictures("cowparsley-hemlock", "flower")
    content = draw_pair_sheet(pair_words(page_of("cowparsley-hemlock", 6, 3), HEAD))
    assert_can_be_read_aloud(content, "Cow parsley / hemlock")
    assert_fonts_are_embedded(content)
    roles = [each.role for each in elements_of(content)]
    assert roles.count("/Figure") == 2
    assert roles.index("/H1") < roles.index("/Figure") < roles.index("/H3")
    assert [each.language for each in elements_of(content)].count("la") == 2


def test_a_dangerous_pair_says_so_before_its_rule(flora):
    words = pair_words(page_of("cowparsley-hemlock"), HEAD)
    text = text_of(draw_pair_sheet(words))
    assert text.index(squeezed(words.danger)) < text.index(squeezed(words.rule))


def test_where_nothing_decides_the_sheet_says_leave_it(flora):
    text = text_of(draw_pair_sheet(pair_words(page_of("comfrey-foxglove", 4, 0), HEAD)))
    assert squeezed("Nothing that shows in this stage decides: leave it.") in text


def lengthened(words: PairWords, times: int) -> PairWords:
    """The same sheet with a name that never breaks and a rule that never ends."""
    plant = replace(words.gathered, common="Extraordinarilylongcommonname" * times)
    return replace(words, gathered=plant, rule=words.rule + " Look again." * 8 * times)


def test_long_names_and_texts_stay_on_their_sheet(flora):
    words = lengthened(pair_words(page_of("cowparsley-hemlock", 6, 3), HEAD), 3)
    for draw, margin in ((draw_pair_sheet, 34), (draw_pair_pocket, 15)):
        content = draw(words)
        assert_inside(content, margin)
        assert squeezed(words.gathered.common) in text_of(content)


def test_what_cannot_fit_is_refused_and_not_cut(flora):
    words = pair_words(page_of("cowparsley-hemlock"), HEAD)
    with pytest.raises(DoesNotFit):
        draw_pair_sheet(replace(words, rule="Look again. " * 2000))
    with pytest.raises(CannotPrint):
        draw_pair_sheet(replace(words, rule="花"))


def test_every_species_has_a_card_of_one_page(flora):
    keys = list(Species.objects.values_list("key", flat=True))
    assert len(keys) == 50
    for key in keys:
        content = card_of(key)
        assert pages_of(content) == 1, key
        assert_inside(content, 14)


@pytest.mark.parametrize("key", ["allium-ursinum", "conium-maculatum", "symphytum-officinale", "sambucus-nigra"])
def test_a_card_holds_names_parts_lookalikes_place_and_law(flora, key):
    plant = Species.objects.get(key=key)
    text = text_of(card_of(key)).casefold()
    facts = [plant.name, plant.author, plant.family, plant.habitat, plant.legal, HEAD.call, HEAD.school]
    facts += [each.name for each in (*plant.common_names.all(), *plant.synonyms.all())]
    facts += [pair.rule for pair in Pair.objects.of_species(plant.pk)]
    facts += [each.part for each in plant.parts_used.all() if plant.may_be_gathered]
    assert [fact for fact in facts if squeezed(fact).casefold() not in text] == []
    assert squeezed("What holds where you are goes before this: ask.").casefold() in text


def test_the_card_of_a_dangerous_plant_says_so_before_anything_else(flora):
    for plant in Species.objects.filter(edibility__in=["deadly", "poisonous"]):
        assert text_of(card_of(plant.key)).startswith(squeezed(plant.edibility.capitalize() + ". Never gather it"))
    assert text_of(card_of("allium-ursinum")).startswith("Ramsons")


def test_dangerous_lookalikes_come_first_on_a_card(flora):
    for plant in Species.objects.prefetch_related("common_names", "synonyms"):
        danger = [each.is_dangerous for each in field_card_words(plant, HEAD).lookalikes]
        assert danger == sorted(danger, reverse=True), plant.key


def test_a_plant_that_is_not_eaten_has_no_parts_to_gather(flora):
    for plant in Species.objects.exclude(edibility__startswith="edible").prefetch_related("common_names", "synonyms"):
        assert field_card_words(plant, HEAD).parts == (), plant.key


def test_cards_and_calendars_can_be_read_aloud(flora):
    card = card_of("conium-maculatum")
    assert_can_be_read_aloud(card, "Hemlock (Conium maculatum)")
    assert_fonts_are_embedded(card)
    year = draw_calendar(calendar_words(season_page(Species.objects.all(), "all plants", HEAD_DAY), HEAD))
    assert_can_be_read_aloud(year, "The year: all plants")
    assert_fonts_are_embedded(year)
    roles = [each.role for each in elements_of(year)]
    assert roles.count("/TR") == 51
    assert roles.count("/TD") == 50 * 12


def test_a_calendar_says_what_its_page_says(flora):
    page = season_page(Species.objects.all(), "all plants", HEAD_DAY)
    words = calendar_words(page, HEAD)
    assert [row.months for row in words.rows] == [tuple(each.letters for each in row.months) for row in page.rows]
    content = draw_calendar(words)
    assert pages_of(content) == 1
    text = text_of(content)
    assert [row.scientific for row in words.rows if squeezed(row.scientific) not in text] == []
    with pytest.raises(DoesNotFit):
        draw_calendar(replace(words, rows=words.rows * 2))


def test_the_same_words_give_the_same_bytes(flora):
    give_pictures("ramsons-lily", "rosette")
    first, again = (pair_words(page_of("ramsons-lily", 4, 0), HEAD) for _ in range(2))
    for draw in (draw_pair_sheet, draw_pair_pocket):
        assert draw(first) == draw(again)
    assert card_of("allium-ursinum") == card_of("allium-ursinum")


@pytest.mark.parametrize("who", ["nobody", "stranger", "participant", "tutor"])
def test_papers_are_for_everybody_and_carry_the_schools_own_words(client, flora, school, who, request, signed_in):
    if who != "nobody":
        signed_in(request.getfixturevalue(who))
    for address in (
        reverse("species:pair_sheet", args=["ramsons-lily"]) + "?month=13&stages=99",
        reverse("species:pair_pocket", args=["ramsons-lily"]),
        reverse("species:field_card", args=["conium-maculatum"]),
        reverse("species:calendar") + "?module=spring-carpets",
    ):
        response = client.get(address)
        assert response["Content-Type"] == "application/pdf"
        assert squeezed(school.name) in text_of(response.content)
        assert squeezed(school.emergency_number) in text_of(response.content)


def test_a_school_with_an_awkward_name_keeps_it_on_paper(client, flora, school):
    school.name = "Fox & Fern's <School>"
    school.save()
    text = text_of(client.get(reverse("species:field_card", args=["conium-maculatum"])).content)
    assert squeezed(unescape(school.name)) in text


def test_a_name_that_the_fonts_lack_is_refused_in_a_sentence(client, flora, school):
    school.name = "花 School"
    school.save()
    response = client.get(reverse("species:field_card", args=["conium-maculatum"]))
    assert response.status_code == 422
    assert "These letters cannot be printed: 花" in response.content.decode()


def test_papers_of_what_is_not_there_are_not_found(client, flora):
    for name in ("pair_sheet", "pair_pocket", "field_card"):
        assert client.get(reverse(f"species:{name}", args=["no-such-key"])).status_code == 404
        assert client.post(reverse(f"species:{name}", args=["no-such-key"])).status_code == 405
