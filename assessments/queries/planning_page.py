"""The page of a plan, topic by topic, each with the panels of the plans beside each other."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from .flora import Flora
from .planning import Plan, verdict
from .planning_plot import LinePlot
from .planning_plots import bank_plots, chance_plots, specimens_plots, together_plots, weeks_plots
from .planning_tables import (
    Table,
    asked_table,
    bank_table,
    chance_table,
    filled,
    holdings_table,
    load_table,
    specimens_table,
    stages_table,
    together_table,
    weeks_table,
)


@dataclass(frozen=True)
class Panel:
    """What one plan has to say to a topic: a plot (if any), and tables that say the same and more."""

    name: str
    plot: LinePlot | None
    tables: tuple[Table, ...]


@dataclass(frozen=True)
class Topic:
    """One question about the plans, and a panel for each."""

    key: str
    title: str
    words: str
    panels: tuple[Panel, ...]


@dataclass(frozen=True)
class PlanningPage:
    """Everything of the page: for each plan a verdict on the bank (enough, sentence), then the topics."""

    verdicts: tuple[tuple[str, bool, str], ...]
    topics: tuple[Topic, ...]


def planning_page(plans: Sequence[Plan], weeks: int, flora: Flora) -> PlanningPage:
    """The page of one plan or two; asks nothing of the database."""
    return PlanningPage(
        tuple((plan.name, *verdict(plan, flora)) for plan in plans),
        (
            _asked(plans),
            _chance(plans),
            _specimens(plans),
            _together(plans),
            _bank(plans, flora),
            _edible(plans),
            _weeks(plans, weeks),
        ),
    )


def _panels(plans: Sequence[Plan], plots: Sequence[LinePlot], tables: Sequence[Sequence[Table]]) -> tuple[Panel, ...]:
    drawn: Sequence[LinePlot | None] = plots or [None for _plan in plans]
    rows = zip(plans, drawn, tables, strict=True)
    return tuple(
        Panel(plan.name, plot, tuple(_named(table, plan, plans) for table in filled(mine))) for plan, plot, mine in rows
    )


def _named(table: Table, plan: Plan, plans: Sequence[Plan]) -> Table:
    """The table with the plan in its caption where there are several, so that no two are called the same."""
    if len(plans) == 1:
        return table
    caption = _("%(caption)s: %(name)s") % {"caption": table.caption, "name": plan.name}
    return replace(table, caption=caption)


def _asked(plans: Sequence[Plan]) -> Topic:
    words = _(
        "A miss is a dangerous plant that somebody would have gathered. One miss asks for many clean plants more, and "
        "no sitting is ever forgotten."
    )
    return Topic("asked", _("What is asked"), words, _panels(plans, (), [[asked_table(plan)] for plan in plans]))


def _chance(plans: Sequence[Plan]) -> Topic:
    words = _(
        "Nobody has measured how often trained gatherers miss: each share is a “what if”. Somebody at the tolerated "
        "share, or above it, should hardly ever pass, however long they try."
    )
    label, caption = _("True share of misses"), _("Chance to pass one dangerous plant")
    tables = [[chance_table(plan.outlook.dangerous, caption, label)] for plan in plans]
    return Topic(
        "chance", _("The chance to pass one dangerous plant"), words, _panels(plans, chance_plots(plans), tables)
    )


def _specimens(plans: Sequence[Plan]) -> Topic:
    words = _("Counted are plants that the person decided on. Whoever leaves one plant in five needs a quarter more.")
    tables = [[specimens_table(plan.outlook.dangerous)] for plan in plans]
    return Topic("specimens", _("How many specimens it takes"), words, _panels(plans, specimens_plots(plans), tables))


def _together(plans: Sequence[Plan]) -> Topic:
    words = _(
        "A certificate needs every dangerous plant, so the chance falls with their number. The plants are taken as "
        "independent of each other; required stages and living plants come on top."
    )
    tables = [[together_table(plan)] for plan in plans]
    return Topic("together", _("All dangerous plants together"), words, _panels(plans, together_plots(plans), tables))


def _bank(plans: Sequence[Plan], flora: Flora) -> Topic:
    words = _(
        "Nobody is set the same plant twice, so the bank has to hold as many as people may need. Counted are confirmed "
        "specimens for assessment that could count for one person: each plant once, two from one place and day. "
        "Sensible is a bank from which nine in ten people who miss one in a hundred pass all."
    )
    tables = [[bank_table(plan), holdings_table(plan, flora), stages_table(plan, flora)] for plan in plans]
    return Topic("bank", _("How big a bank it takes"), words, _panels(plans, bank_plots(plans), tables))


def _edible(plans: Sequence[Plan]) -> Topic:
    words = _(
        "Whoever refuses or leaves everything is safe, and knows nothing: the edible plants have to be recognised."
    )
    label, caption = _("True share not recognised"), _("Chance to pass one edible plant")
    tables = [[chance_table(plan.outlook.edible, caption, label)] for plan in plans]
    return Topic("edible", _("Recognising the edible plants"), words, _panels(plans, (), tables))


def _weeks(plans: Sequence[Plan], weeks: int) -> Topic:
    words = _(
        "Dangerous plants never fill more than three fifths of a paper, or the proportion would give them away. Where "
        "this is more than people can do in a course, the standard is a path over more than one."
    )
    tables = [[load_table(plan, weeks), weeks_table(plan, weeks)] for plan in plans]
    return Topic("weeks", _("Questions a week"), words, _panels(plans, weeks_plots(plans), tables))
