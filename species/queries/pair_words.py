"""The words of a pair for paper: the same facts as on its page."""

from django.utils.text import capfirst
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from species.documents.pair_words import Letterhead, PairWords, PlantWords, SignGroup, SignWords, StateWords
from species.documents.printed_picture import PrintedPicture
from species.models import Species
from species.models.flora import EDIBILITY_WORDS
from species.queries.letterhead import cautions
from species.queries.pair_page import PairPage
from species.queries.pair_sentences import danger_sentence, telling_sentence
from species.queries.pair_signs import Sign, StateShown
from species.queries.picture_files import printed_picture
from species.queries.pictures import Picture
from species.rules.vocabulary import Edibility

EDIBILITY = dict(EDIBILITY_WORDS)
IN_DANGER = (Edibility.POISONOUS, Edibility.DEADLY)


def pair_words(page: PairPage, letterhead: Letterhead) -> PairWords:
    """The sheet of a pair in the month and stage of its page; reads the files of at most two pictures."""
    pair = page.pair
    pictures = page.pictures[0] if page.pictures else (None, None)
    stage = _stage(page)
    return PairWords(
        language=get_language() or "en",
        letterhead=letterhead,
        title=f"{capfirst(pair.gathered.common_name)} / {pair.mistaken.common_name}",
        joined_by=_("mistaken for it:"),
        danger=danger_sentence(pair.danger),
        is_dangerous=pair.is_dangerous,
        gathered=_plant(pair.gathered, pictures[0]),
        mistaken=_plant(pair.mistaken, pictures[1]),
        rule=pair.rule,
        months=tuple((each.short, _month_word(each.telling)) for each in page.months),
        telling=" ".join(filter(None, (telling_sentence(page.month), stage))),
        stage=stage,
        groups=_groups(page),
        never_heading=_("Never to be relied on"),
        never=tuple((sign.name, str(capfirst(sign.note))) for sign in page.never),
        sections=_sections(page),
        cautions=cautions(),
    )


def _stage(page: PairPage) -> str:
    if page.chosen is None:
        return ""
    stages = page.chosen.gathered if page.chosen.is_one_stage else f"{page.chosen.gathered} / {page.chosen.mistaken}"
    return _("Shown here: %(stages)s.") % {"stages": stages}


def _plant(plant: Species, picture: Picture | None) -> PlantWords:
    return PlantWords(
        common=str(capfirst(plant.common_name)),
        scientific=plant.name,
        warning=str(capfirst(str(EDIBILITY[plant.edibility]))),
        is_danger=plant.edibility in IN_DANGER,
        picture=_printed(picture),
    )


def _printed(picture: Picture | None) -> PrintedPicture | None:
    return printed_picture(picture) if picture else None


def _month_word(telling: str) -> str:
    return {"in_all": _("yes"), "in_some": _("some"), "in_none": _("no"), "not_together": "–"}[telling]


def _groups(page: PairPage) -> tuple[SignGroup, ...]:
    found = [
        SignGroup(
            _("Decides, the most telling first"),
            _signs(page.decisive),
            _("Nothing that shows in this stage decides: leave it."),
        )
    ]
    if page.supporting:
        found.append(SignGroup(_("Supports, and does not decide alone"), _signs(page.supporting)))
    if page.underground:
        heading = _("Only in the ground: nobody digs to find out, and digging needs the owner's leave")
        found.append(SignGroup(heading, _signs(page.underground)))
    return tuple(found)


def _signs(signs: list[Sign]) -> tuple[SignWords, ...]:
    return tuple(
        SignWords(
            sign.name,
            str(capfirst(sign.gathered)),
            str(capfirst(sign.mistaken)),
            _states(sign.gathered_states if sign.is_drawn else ()),
            _states(sign.mistaken_states if sign.is_drawn else ()),
            _note(sign),
        )
        for sign in signs
    )


def _states(states: tuple[StateShown, ...]) -> tuple[StateWords, ...]:
    """Paper has room for what is shown as a rule; what is shown sometimes stands in the words."""
    usual = [each for each in states if each.often != "sometimes"] or list(states)
    return tuple(StateWords(each.text, each.strokes) for each in usual[:2])


def _note(sign: Sign) -> str:
    one_way = _("One way only: %(what)s.") % {"what": sign.one_way} if sign.one_way else ""
    return " ".join(filter(None, (one_way, str(capfirst(sign.note)))))


def _sections(page: PairPage) -> tuple[tuple[str, str], ...]:
    pair = page.pair
    unseen = " ".join(f"{sign.name}: {sign.when}" for sign in page.unseen)
    others = ", ".join(each.mistaken.common_name for each in page.others)
    third = [f"{capfirst(pair.third_species)}."] if pair.third_species else []
    if others:
        third.append(_("Also taken for %(name)s: %(others)s.") % {"name": pair.gathered.common_name, "others": others})
    found = [
        (_("How it goes wrong."), f"{capfirst(pair.what_goes_wrong)}." if pair.what_goes_wrong else ""),
        (_("Where they meet."), f"{capfirst(pair.where_together)}." if pair.where_together else ""),
        (_("Third plants to know."), " ".join(third)),
        (_("What you cannot see now."), unseen),
    ]
    return tuple((heading, text) for heading, text in found if text)
