"""Making standards, putting a version to use, and following it with a new one."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Standard, StandardPair, StandardSpecies
from assessments.queries.default_stages import StagesAsked, default_stages
from assessments.queries.standards import standard_facts
from assessments.rules.standard import Bars, Side
from assessments.rules.treatment import stages_that_count
from species.models import Pair, Species

from .refusals import Refused


@dataclass(frozen=True)
class Exceptions:
    """What a standard says of single species and pairs, each with its reason.

    `recognise_only`: by name alone; `photographs_only`: cannot be found live here (both: key of the species
    to reason). `stages`: other stages than the default ones, by key of the pair.
    """

    recognise_only: Mapping[str, str] = field(default_factory=dict)
    photographs_only: Mapping[str, str] = field(default_factory=dict)
    stages: Mapping[str, StagesAsked] = field(default_factory=dict)


NO_EXCEPTIONS = Exceptions()


class StandardIncomplete(Refused):
    """The draft lacks something that a version in use must have."""


class AlreadyInUse(Refused):
    """A version in use is never edited."""


def make_standard(
    key: str,
    name: str,
    bars: Bars,
    pairs: Collection[Pair],
    *,
    by: User | None,
    purpose: str = "",
    reasons: str = "",
    leads_walks: bool = False,
    exceptions: Exceptions = NO_EXCEPTIONS,
    follows: Standard | None = None,
) -> Standard:
    """A draft over these pairs. Stages come from the state table where `exceptions` names no others.

    A gathered species that can fairly be asked for in no stage that its dangerous pairs share is asked for by its
    name alone.
    """
    with transaction.atomic():
        standard = Standard.objects.create(
            key=key,
            version=follows.version + 1 if follows else 1,
            follows=follows,
            name=name,
            purpose=purpose,
            reasons=reasons,
            leads_walks=leads_walks,
            made_by=by,
            **_numbers(bars),
        )
        stages = {**default_stages(pairs), **exceptions.stages}
        StandardPair.objects.bulk_create(
            StandardPair(
                standard=standard,
                pair=pair,
                required_stages=list(stages[pair.key].mistaken),
                edible_stages=list(stages[pair.key].gathered),
            )
            for pair in pairs
        )
        _say_of_species(standard, pairs, stages, exceptions)
    return standard


def _numbers(bars: Bars) -> dict[str, object]:
    return {
        "miss_limit": str(float(bars.dangerous.limit)),
        "miss_ratio": int(bars.dangerous.ratio),
        "miss_alpha": str(float(bars.dangerous.alpha)),
        "refusal_limit": str(float(bars.edible.limit)),
        "refusal_ratio": int(bars.edible.ratio),
        "refusal_alpha": str(float(bars.edible.alpha)),
        "window_weights": [float(weight) for weight in bars.window_weights],
        "live_run": bars.live_run,
        "live_occasions": bars.live_occasions,
        "stage_clean": bars.stage_clean,
        "valid_months": bars.valid_months,
        "period_months": bars.period_months,
    }


def _say_of_species(
    standard: Standard, pairs: Collection[Pair], stages: Mapping[str, StagesAsked], exceptions: Exceptions
) -> None:
    asked: dict[int, frozenset[str]] = {}
    for pair in pairs:
        if pair.is_dangerous:
            fair = frozenset(stages[pair.key].gathered)
            asked[pair.gathered_id] = asked.get(pair.gathered_id, fair) & fair
    here = {pair.gathered_id for pair in pairs} | {pair.mistaken_id for pair in pairs}
    no_stage = _("In no stage can somebody fairly be asked to gather it.")
    rows = []
    for species in Species.objects.filter(pk__in=here).order_by("key"):
        by_name = exceptions.recognise_only.get(species.key, "")
        if not by_name and not species.is_known_by_name_alone and asked.get(species.pk) == frozenset():
            by_name = no_stage
        on_photographs = exceptions.photographs_only.get(species.key, "")
        if by_name or on_photographs:
            rows.append(
                StandardSpecies(
                    standard=standard,
                    species=species,
                    recognise_only=bool(by_name),
                    live_required=not on_photographs,
                    reason=on_photographs or by_name,
                )
            )
    StandardSpecies.objects.bulk_create(rows)


def put_to_use(standard: Standard, today: date) -> Standard:
    """Fix a draft for ever and let papers be set for it. Raises StandardIncomplete or AlreadyInUse."""
    with transaction.atomic():
        draft = Standard.objects.select_for_update().get(pk=standard.pk)
        if draft.in_use_since is not None:
            raise AlreadyInUse(_("This version is in use already; make a new version to change anything."))
        missing = _missing_in(draft)
        if missing:
            raise StandardIncomplete(*missing)
        draft.in_use_since = today
        draft.save()
    standard.in_use_since = today
    return draft


def _missing_in(draft: Standard) -> list[str]:
    missing = []
    if not any(row.pair.is_dangerous for row in draft.pairs.select_related("pair")):
        missing.append(_("There is no dangerous pair in it: add one, since nobody could pass it."))
    if not draft.purpose.strip():
        missing.append(_("It does not say what a pass means, and what it does not mean: write that down."))
    if not draft.reasons.strip():
        missing.append(_("It does not say why these pairs and these numbers: write that down."))
    return missing + _asked_for_in_no_stage(draft)


def _asked_for_in_no_stage(draft: Standard) -> list[str]:
    """A sentence for each gathered species that nobody could ever show: its pairs have no stage in common."""
    facts = standard_facts(draft)
    gathered = {row.pair.gathered.key: row.pair.gathered for row in draft.pairs.select_related("pair__gathered")}
    never = [gathered[key] for key in facts.species(Side.EDIBLE) if stages_that_count(key, facts) == frozenset()]
    return [
        _(
            "In no stage can %(species)s be told from all its lookalikes in it, so nobody could pass it: name a stage "
            "that all its pairs share, or ask for it by its name alone."
        )
        % {"species": species.common_name}
        for species in never
    ]


def make_new_version(standard: Standard, by: User | None) -> Standard:
    """A draft that follows a version in use and begins as its copy. Raises Refused if one follows already."""
    with transaction.atomic():
        old = Standard.objects.get(pk=standard.pk)
        if old.in_use_since is None:
            raise Refused(_("This version is a draft itself: change it, or put it to use first."))
        if Standard.objects.filter(follows=old).exists():
            raise Refused(_("A newer version exists already: go on with that one."))
        draft = Standard.objects.get(pk=standard.pk)
        draft.pk, draft.in_use_since = None, None
        draft.version, draft.follows, draft.made_by = old.version + 1, old, by
        draft._state.adding = True
        draft.save()
        for rows in (old.pairs.all(), old.species.all()):
            for row in rows:
                row.pk, row.standard = None, draft
                row._state.adding = True
                row.save()
    return draft
