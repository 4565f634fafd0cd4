"""The tables of a plan: plain words row by row, for the page, for the command, and for those who listen."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.rules.outlook import HORIZON, LoadLine, SideOutlook, stages_asked

from .flora import Flora
from .planning import Plan, week_words
from .planning_bank import NOTHING
from .retakes_page import percent
from .sentences.words import stage_word

WEEKS = (4, 6, 8, 10, 12, 24)


@dataclass(frozen=True)
class Table:
    """A table as `pieces/table.html` draws it; the first cell of a row names it."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def chance_words(chance: float) -> str:
    """A chance as printed: none only where there is none."""
    return f"<{percent(0.001)}" if 0 < chance < 0.001 else percent(chance)


def asked_table(plan: Plan) -> Table:
    """The numbers of the decision rule, side beside side."""
    d, e = plan.outlook.dangerous, plan.outlook.edible
    rows = [
        (_("Species"), *(str(len(side.species)) for side in (d, e))),
        (_("Tolerated share"), *(percent(float(side.bar.limit)) for side in (d, e))),
        (_("Chance of a false pass"), *(percent(float(side.bar.alpha)) for side in (d, e))),
        (_("Ratio"), *(f"{float(side.bar.ratio):g}" for side in (d, e))),
    ]
    for misses, label in enumerate((_("Clean, no miss"), _("with one"), _("with two"), _("with three"))):
        rows.append((label, str(d.needed[misses]), str(e.needed[misses])))
    return Table(_("The numbers of the rule"), (_("Number"), _("Dangerous"), _("Edible")), tuple(rows))


def chance_table(side: SideOutlook, caption: str, rate_label: str) -> Table:
    """The chance to pass one species of a side, by true rate."""
    columns = (
        rate_label,
        *(_("within %(n)s") % {"n": mark} for mark in side.marks),
        _("within %(n)s") % {"n": HORIZON},
    )
    rows = tuple(
        (percent(line.rate), *(chance_words(chance) for chance in line.within), chance_words(line.ever))
        for line in side.rates
    )
    return Table(caption, columns, rows)


def specimens_table(side: SideOutlook) -> Table:
    """How many specimens of one dangerous species it takes, by true rate."""
    columns = (_("True share of misses"), _("Mean of those who pass"), _("Half have passed"), _("Nine in ten have"))
    rows = tuple(
        (percent(line.rate), mean_words(line.mean), count_words(line.median), count_words(line.nine_in_ten))
        for line in side.rates
    )
    return Table(_("Specimens until one dangerous plant is passed"), columns, rows)


def mean_words(mean: float | None) -> str:
    """A mean number of specimens, to one place; of whole ones the whole number."""
    return _("nobody") if mean is None else f"{mean:.1f}".removesuffix(".0")


def count_words(specimens: int | None) -> str:
    """A number of specimens; a word where so many people never get there."""
    return _("never") if specimens is None else str(specimens)


def together_table(plan: Plan) -> Table:
    """The chance to pass every dangerous species."""
    marks = plan.outlook.dangerous.marks
    columns = (
        _("True share of misses"),
        *(_("within %(n)s of each") % {"n": mark} for mark in marks),
        _("with the bank as it is"),
    )
    rows = tuple(
        (
            percent(line.rate),
            *(chance_words(chance) for chance in line.within),
            chance_words(plan.outlook.from_bank(line.rate, plan.held)),
        )
        for line in plan.outlook.together
    )
    count = len(plan.outlook.dangerous.species)
    caption = ngettext("Chance to pass the one dangerous plant", "Chance to pass all %(count)s dangerous plants", count)
    return Table(caption % {"count": count}, columns, rows)


def bank_table(plan: Plan) -> Table:
    """Unseen specimens of each dangerous species, by true rate."""
    columns = (_("True share of misses"), _("half of them pass all"), _("nine in ten pass all"))
    rows = tuple(
        (percent(line.rate), count_words(line.half), count_words(line.nine_in_ten)) for line in plan.outlook.bank
    )
    return Table(_("Specimens of each dangerous plant that the bank needs"), columns, rows)


def holdings_table(plan: Plan, flora: Flora) -> Table:
    """What the bank holds of each species, and what it needs at least."""
    wanted = count_words(plan.outlook.wanted)
    rows = [
        (flora.common(species), str(held), str(plan.outlook.least[species]), wanted)
        for species, held in plan.held.items()
    ]
    edible = plan.outlook.edible
    for species in edible.species:
        held = plan.holdings.get(species, NOTHING).countable
        rows.append((flora.common(species), str(held), str(edible.needed[0]), str(edible.marks[1])))
    columns = (_("Plant"), _("could count"), _("needed at least"), _("sensible"))
    return Table(_("What the bank holds"), columns, tuple(rows))


def stages_table(plan: Plan, flora: Flora) -> Table:
    """The stages that must be shown, against what the bank holds in them."""
    facts, rows = plan.outlook.facts, []
    for species in plan.outlook.dangerous.species:
        for stage in stages_asked(facts, species):
            held = plan.holdings.get(species, NOTHING).stages.get(stage, 0)
            rows.append((f"{flora.common(species)}, {stage_word(stage)}", str(held), str(facts.stage_clean)))
    return Table(_("Stages that must be shown"), (_("Plant and stage"), _("could count"), _("needed")), tuple(rows))


def who_words(line: LoadLine) -> str:
    """The person that a load is counted for."""
    if line.miss_rate == 0:
        return _("never errs")
    words = {"misses": percent(line.miss_rate), "refusals": percent(line.refusal_rate)}
    return _("misses %(misses)s, refuses %(refusals)s") % words


def load_table(plan: Plan, weeks: int) -> Table:
    """What one person answers in all."""
    columns = (_("Somebody who"), _("dangerous"), _("edible"), _("questions"), _("a week, %(n)s weeks") % {"n": weeks})
    rows = []
    for line in plan.outlook.loads:
        if line.load is None:
            rows.append((who_words(line), *(_("nobody passes") for _column in range(4))))
        else:
            figures = (line.load.dangerous, line.load.edible, line.load.questions)
            rows.append((who_words(line), *map(str, figures), week_words(line.load.per_week(weeks))))
    return Table(_("Questions for one person, on average"), columns, tuple(rows))


def weeks_table(plan: Plan, weeks: int) -> Table:
    """Questions a week by the length of the course."""
    loads = [line for line in plan.outlook.loads if line.load is not None]
    rows = []
    for each in sorted({*WEEKS, weeks}):
        cells = [str(ceil(round(line.load.per_week(each), 9))) for line in loads if line.load]
        rows.append((str(each), *cells))
    columns = (_("Weeks"), *(who_words(line) for line in loads))
    return Table(_("Questions a week, by the length of the course"), columns, tuple(rows))


def filled(tables: Sequence[Table]) -> tuple[Table, ...]:
    """The tables that have rows."""
    return tuple(table for table in tables if table.rows)
