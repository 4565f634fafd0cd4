"""The plots of plans, all plans of a page on the same axes, so that two can be compared by eye."""

from collections.abc import Callable, Sequence

from django.utils.translation import gettext as _

from assessments.rules.outlook import HALF, MOST, TogetherLine
from assessments.rules.planning import all_within, specimens_for_all

from .planning import Plan
from .planning_plot import Curve, LinePlot, Point, counting_axis, line_plot, share_axis
from .retakes_page import percent

STEPS = 12
SMALL_RATES = tuple(place / 400 for place in range(0, 21, 2))
"""True shares of misses from none to five in a hundred: where people who pass are."""
SHOWN_RATES = (0.01, 0.02, 0.05)
FIRST_WEEK, LAST_WEEK = 4, 24


def chance_plots(plans: Sequence[Plan]) -> list[LinePlot]:
    """The chance to pass one dangerous species, by true share of misses."""
    highest = min(1.0, 1.25 * max(float(plan.outlook.dangerous.bar.limit) for plan in plans))
    axes = (share_axis(_("True share of misses"), highest), share_axis(_("Chance to pass")))
    rates = [highest * place / STEPS for place in range(STEPS + 1)]
    drawn = []
    for number, plan in enumerate(plans):
        side = plan.outlook.dangerous
        first, second = side.marks[:2]
        curves = [
            Curve(_("ever"), [(rate, side.timing(rate).probability) for rate in rates]),
            Curve(_("within %(n)s") % {"n": second}, [(rate, side.timing(rate).within(second)) for rate in rates]),
            Curve(_("within %(n)s") % {"n": first}, [(rate, side.timing(rate).within(first)) for rate in rates]),
        ]
        at_limit = side.timing(float(side.bar.limit)).probability
        words = _(
            "All lines begin at certainty for somebody who never misses, and fall. At the tolerated share of %(limit)s "
            "the highest of them is at %(chance)s. The table gives every figure."
        ) % {"limit": percent(float(side.bar.limit)), "chance": percent(at_limit)}
        title = _("Chance to pass one dangerous plant, by true share of misses: %(name)s") % {"name": plan.name}
        drawn.append(line_plot(f"chance-{number}", title, words, axes, curves))
    return drawn


def specimens_plots(plans: Sequence[Plan]) -> list[LinePlot]:
    """How many specimens of one dangerous species half, and nine in ten, of people need."""

    def needed(plan: Plan, rate: float, share: float) -> int | None:
        return plan.outlook.dangerous.timing(rate).quantile(share)

    title = _("Specimens until one dangerous plant is passed, by true share of misses: %(name)s")
    return _by_rate(plans, "specimens", title, needed, with_bank=False)


def bank_plots(plans: Sequence[Plan]) -> list[LinePlot]:
    """How many specimens of each dangerous species the bank needs, with the line of what it holds."""

    def needed(plan: Plan, rate: float, share: float) -> int | None:
        side = plan.outlook.dangerous
        return specimens_for_all(side.timing(rate), len(side.species), share)

    title = _("Specimens of each dangerous plant that the bank needs, by true share of misses: %(name)s")
    return _by_rate(plans, "bank", title, needed, with_bank=True)


def _by_rate(
    plans: Sequence[Plan],
    key: str,
    title: str,
    needed: Callable[[Plan, float, float], int | None],
    *,
    with_bank: bool,
) -> list[LinePlot]:
    """Two lines over the small true shares: half of the people, and nine in ten of them."""
    highest = max(3 * plan.outlook.dangerous.marks[2] for plan in plans)
    axes = (share_axis(_("True share of misses"), SMALL_RATES[-1]), counting_axis(_("Specimens"), highest))
    drawn = []
    for number, plan in enumerate(plans):
        curves = [
            Curve(word, _reached([(rate, needed(plan, rate, share)) for rate in SMALL_RATES], axes[1].high))
            for word, share in ((_("nine in ten"), MOST), (_("half"), HALF))
        ]
        begin = plan.outlook.dangerous.marks[0]
        words = _(
            "Both lines begin at %(begin)s specimens for somebody who never misses and climb in steps with the true "
            "share of misses; the line of nine in ten people climbs faster and may leave the plot. The table gives "
            "every figure."
        ) % {"begin": begin}
        if with_bank:
            words += " " + _("A dashed line marks what the bank holds of the scarcest plant: %(n)s.") % {
                "n": plan.smallest
            }
        level = (float(plan.smallest), _("bank: %(n)s") % {"n": plan.smallest}) if with_bank else None
        drawn.append(line_plot(f"{key}-{number}", title % {"name": plan.name}, words, axes, curves, level))
    return drawn


def _reached(points: Sequence[tuple[float, int | None]], highest: float) -> list[Point]:
    """The points up to the first that is not reached, or leaves the plot."""
    found: list[Point] = []
    for rate, specimens in points:
        if specimens is None or specimens > highest:
            break
        found.append((rate, float(specimens)))
    return found


def together_plots(plans: Sequence[Plan]) -> list[LinePlot]:
    """The chance to pass every dangerous species, by specimens shown of each."""
    highest = max(2 * plan.outlook.dangerous.marks[2] for plan in plans)
    axes = (counting_axis(_("Specimens of each dangerous plant"), highest), share_axis(_("Chance to pass all")))
    drawn = []
    for number, plan in enumerate(plans):
        side = plan.outlook.dangerous
        count, last = len(side.species), int(axes[0].high)
        curves = [
            Curve(
                _("misses %(rate)s") % {"rate": percent(rate)},
                [
                    (n, all_within([side.timing(rate).within(n)] * count))
                    for n in range(0, last + 1, max(1, last // 80))
                ],
            )
            for rate in SHOWN_RATES
        ]
        title = _("Chance to pass all dangerous plants, by specimens shown of each: %(name)s") % {"name": plan.name}
        drawn.append(
            line_plot(f"together-{number}", title, _together_words(plan.outlook.together, side.marks), axes, curves)
        )
    return drawn


def _together_words(lines: Sequence[TogetherLine], marks: Sequence[int]) -> str:
    line = next(each for each in lines if each.rate == SHOWN_RATES[0])
    return _(
        "Nobody passes before %(first)s specimens of each. Of people who miss one in a hundred %(once)s have passed "
        "all by then, and %(twice)s by %(second)s; those who miss more are below them. The table gives every figure."
    ) % {"first": marks[0], "once": percent(line.within[0]), "twice": percent(line.within[1]), "second": marks[1]}


def weeks_plots(plans: Sequence[Plan]) -> list[LinePlot]:
    """Questions a week by the length of the course, for the loads of the table."""
    loads = [line.load for plan in plans for line in plan.outlook.loads if line.load is not None]
    if not loads:
        return []
    up = counting_axis(_("Questions a week"), max(load.per_week(FIRST_WEEK) for load in loads))
    along = counting_axis(_("Weeks"), LAST_WEEK, FIRST_WEEK)
    drawn = []
    for number, plan in enumerate(plans):
        mine = [line for line in plan.outlook.loads if line.load is not None]
        curves = [
            Curve(
                _("never errs") if line.miss_rate == 0 else _("misses %(rate)s") % {"rate": percent(line.miss_rate)},
                [(week, line.load.per_week(week)) for week in range(FIRST_WEEK, LAST_WEEK + 1)] if line.load else [],
            )
            for line in reversed(mine)
        ]
        words = _(
            "Every line falls as the course gets longer: twice the weeks, half the questions. The table gives "
            "every figure."
        )
        title = _("Questions a week for one person, by the length of the course: %(name)s") % {"name": plan.name}
        drawn.append(line_plot(f"weeks-{number}", title, words, (along, up), curves))
    return drawn
