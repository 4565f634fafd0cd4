"""The words of a field card: names, lookalikes with their rule, parts and months, cautions, place and law."""

from collections.abc import Iterable

from django.utils.text import capfirst
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from species.documents.field_card import FieldCardWords, LookalikeWords
from species.documents.pair_words import Letterhead
from species.models import Pair, PartUsed, Showing, Species
from species.models.flora import EDIBILITY_WORDS, STAGE_WORDS
from species.queries.letterhead import cautions
from species.queries.months import months_in_words
from species.queries.pair_page import danger_order
from species.rules.vocabulary import Danger, Edibility, Stage

EDIBILITY = dict(EDIBILITY_WORDS)


def field_card_words(plant: Species, letterhead: Letterhead) -> FieldCardWords:
    """The card of a species; five queries. `plant` comes with its common names and synonyms."""
    return FieldCardWords(
        language=get_language() or "en",
        letterhead=letterhead,
        danger=_danger(plant),
        common=str(capfirst(plant.common_name)),
        scientific=plant.name,
        author=plant.author,
        family=plant.family,
        edibility=str(capfirst(str(EDIBILITY[plant.edibility]))),
        also=_also(plant),
        parts_heading=_("What is gathered, and when"),
        parts=tuple(_part(each) for each in plant.parts_used.order_by("order")) if _is_gathered(plant) else (),
        lookalikes_heading=_("Lookalikes, dangerous first"),
        lookalikes=_lookalikes(plant),
        sections=_sections(plant),
        cautions=cautions(),
    )


def _is_gathered(plant: Species) -> bool:
    """What the school does not eat has no parts to gather on its card."""
    return plant.may_be_gathered


def _danger(plant: Species) -> str:
    if plant.edibility == Edibility.DEADLY:
        return _("Deadly. Never gather it, never taste it.")
    if plant.edibility == Edibility.POISONOUS:
        return _("Poisonous. Never gather it, never taste it.")
    return ""


def _also(plant: Species) -> str:
    names = [each.name for each in plant.common_names.all()][1:]
    others = [each.name for each in plant.synonyms.all()]
    said = [_("Also called %(names)s.") % {"names": ", ".join(names)}] if names else []
    if others:
        said.append(_("Other scientific names: %(names)s.") % {"names": ", ".join(others)})
    return " ".join(said)


def _part(part: PartUsed) -> str:
    words = {"part": capfirst(part.part), "months": months_in_words(part.months), "note": part.note}
    return _("%(part)s: %(months)s; %(note)s.") % words if part.note else _("%(part)s: %(months)s.") % words


def _lookalikes(plant: Species) -> tuple[LookalikeWords, ...]:
    rows = Pair.objects.of_species(plant.pk).with_both_species()
    pairs = rows.prefetch_related("gathered__common_names", "mistaken__common_names")
    in_order = sorted(pairs, key=lambda each: (danger_order(each.danger), each.order))
    return tuple(_lookalike(plant, each) for each in in_order)


def _lookalike(plant: Species, pair: Pair) -> LookalikeWords:
    is_wanted = pair.gathered_id == plant.pk
    other = pair.mistaken if is_wanted else pair.gathered
    how = {
        Danger.DANGEROUS.value: _("is dangerous:") if is_wanted else _("is gathered; this is its dangerous double:"),
        Danger.UNPLEASANT.value: _("makes ill:") if is_wanted else _("is gathered, and this makes ill:"),
        Danger.HARMLESS.value: _("is harmless:") if is_wanted else _("is gathered, and this is harmless:"),
    }[pair.danger]
    return LookalikeWords(str(capfirst(other.common_name)), other.name, how, pair.is_dangerous, pair.rule)


def _sections(plant: Species) -> tuple[tuple[str, str], ...]:
    harm = [
        _("Signs: %(signs)s.") % {"signs": plant.hazard_signs} if plant.hazard_signs else "",
        _("Parts: %(parts)s.") % {"parts": plant.hazard_parts} if plant.hazard_parts else "",
        _("First signs: %(onset)s.") % {"onset": plant.hazard_onset} if plant.hazard_onset else "",
        f"{capfirst(plant.hazard_severity)}." if plant.hazard_severity else "",
        f"{capfirst(plant.hazard_uncertain.rstrip('.'))}." if plant.hazard_uncertain else "",
    ]
    found = [
        (_("Precautions.") if plant.may_be_gathered else _("Harm."), " ".join(filter(None, harm))),
        (_("Where it grows."), f"{capfirst(plant.habitat)}." if plant.habitat else ""),
        (_("When it shows."), _shows(Showing.objects.filter(species=plant))),
        (_("Worth noting."), plant.note),
        (
            _("The law."),
            " ".join(filter(None, (plant.legal, _("What holds where you are goes before this: ask.")))),
        ),
        (_("Manners."), _manners() if plant.may_be_gathered else _("Leave it where it stands; show it to others.")),
    ]
    return tuple((heading, text) for heading, text in found if text)


def _shows(rows: Iterable[Showing]) -> str:
    words = dict(STAGE_WORDS)
    months = {row.stage: row.months for row in rows if row.months}
    said = [
        f"{words[stage.value]} {months_in_words(months[stage.value], short=True)}"
        for stage in Stage
        if stage.value in months
    ]
    return f"{capfirst('; '.join(said))}." if said else ""


def _manners() -> str:
    return _(
        "Ask the owner. Take little, from plenty, and never the last. Leave roots in the ground. Keep off road edges "
        "and whatever is sprayed or fouled. One bag for each plant."
    )
