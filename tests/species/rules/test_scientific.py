"""Scientific names are taken apart without losing what belongs to the name."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.scientific import (
    Rank,
    genus_of,
    is_same_scientific_name,
    parsed_name,
    without_author,
)
from tests.species.flora import flora


@pytest.mark.parametrize(
    ("given_as", "name"),
    [
        ("Allium ursinum L.", "Allium ursinum"),
        ("Helosciadium nodiflorum (L.) W.D.J.Koch", "Helosciadium nodiflorum"),
        ("Hyacinthoides non-scripta (L.) Chouard ex Rothm.", "Hyacinthoides non-scripta"),
        ("Lysimachia arvensis (L.) U.Manns & Anderb.", "Lysimachia arvensis"),
        ("Armoracia rusticana G.Gaertn., B.Mey. & Scherb.", "Armoracia rusticana"),
        ("Daucus carota L. subsp. gummifer (Syme) Hook.f.", "Daucus carota subsp. gummifer"),
        ("Aconitum napellus L. subsp. napellus", "Aconitum napellus subsp. napellus"),
        ("Rosa canina L.f. var. dumetorum (Thuill.) Poir.", "Rosa canina var. dumetorum"),
        ("Viola riviniana Rchb. f. minor (Murb.) Valentine", "Viola riviniana f. minor"),
        ("Carex flava L. f. ex Hook.", "Carex flava"),
        ("Symphytum × uplandicum Nyman", "Symphytum × uplandicum"),
        ("Symphytum x uplandicum Nyman", "Symphytum × uplandicum"),
        ("Symphytum ×uplandicum Nyman", "Symphytum × uplandicum"),
        ("×Festulolium loliaceum (Huds.) P.Fourn.", "×Festulolium loliaceum"),
        ("Salix alba L. × S. fragilis L.", "Salix alba × S. fragilis"),
        ("Mentha ×villosa Huds. nothovar. alopecuroides", "Mentha × villosa nothovar. alopecuroides"),
        ("Taraxacum officinale agg. F.H.Wigg.", "Taraxacum officinale agg."),
        ("Stellaria media s.l.", "Stellaria media agg."),
        ("Crataegus monogyna Jacq. s.str.", "Crataegus monogyna"),
        ("Taraxacum sect. Taraxacum", "Taraxacum sect. Taraxacum"),
        ("Oenanthe cf. crocata L.", "Oenanthe crocata"),
        ("Daucus", "Daucus"),
        ("wild  garlic", "wild garlic"),
    ],
)
def test_the_author_goes_and_the_name_stays(given_as: str, name: str) -> None:
    assert without_author(given_as) == name


@pytest.mark.parametrize(
    ("text", "rank", "qualifier"),
    [
        ("Oenanthe", Rank.GENUS, ""),
        ("Oenanthe sp.", Rank.GENUS, ""),
        ("Oenanthe crocata L.", Rank.SPECIES, ""),
        ("Oenanthe cf. crocata", Rank.SPECIES, "cf."),
        ("Oenanthe aff crocata", Rank.SPECIES, "aff."),
        ("Taraxacum officinale agg.", Rank.AGGREGATE, ""),
        ("Taraxacum sect. Erythrosperma", Rank.SECTION, ""),
        ("Ficaria verna Huds. subsp. verna", Rank.BELOW_SPECIES, ""),
    ],
)
def test_the_rank_and_the_reserve_are_read(text: str, rank: Rank, qualifier: str) -> None:
    found = parsed_name(text)
    assert (found.rank, found.qualifier) == (rank, qualifier)


def test_the_author_is_kept_aside() -> None:
    assert parsed_name("Daucus carota L. subsp. gummifer (Syme) Hook.f.").author == "L. (Syme) Hook.f."
    assert parsed_name("Symphytum × uplandicum Nyman").is_hybrid


@pytest.mark.parametrize(
    ("text", "genus"),
    [
        ("Salix alba × S. fragilis", "Salix"),
        ("×Festulolium loliaceum", "Festulolium"),
        ("sorrel", ""),
        ("", ""),
    ],
)
def test_the_genus_is_found(text: str, genus: str) -> None:
    assert genus_of(text) == genus


def test_two_spellings_of_one_name_are_one() -> None:
    assert is_same_scientific_name("Atropa belladonna L.", "Atropa bella-donna")
    assert not is_same_scientific_name("Conium maculatum", "Conopodium majus")


def test_every_name_of_the_school_loses_exactly_its_author() -> None:
    for record in flora().plants.species:
        full = f"{record.name} {record.author}".strip()
        assert without_author(full) == record.name, full
        assert parsed_name(full).author.split() == record.author.split(), full


@given(st.text())
def test_no_text_breaks_the_reading(text: str) -> None:
    found = parsed_name(text)
    assert " ".join(without_author(text).split()) == without_author(text)
    assert bool(found.genus) <= bool(found.text)
