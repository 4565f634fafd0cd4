"""Why a step with a specimen was refused, in sentences."""

from collections.abc import Iterable

from django.utils.translation import gettext_lazy

from species.rules.bank import Lack, Why

SENTENCES = {
    Why.IN_USE: gettext_lazy(
        "Somebody has been asked about this specimen ({uses}), so it stays as it is. If it must not be used any "
        "more, take it out of the bank."
    ),
    Why.WAS_PUBLIC: gettext_lazy(
        "This specimen has borne a name, so everybody could see its pictures on the page of that plant. Nobody "
        "can be tested with it any more; photograph another plant."
    ),
    Why.NO_STAGE: gettext_lazy("Say first in which stage the plant is: nobody can be tested without it."),
    Why.DAY_AHEAD: gettext_lazy("The day of the find lies ahead; correct the date."),
    Why.RETIRED: gettext_lazy("This specimen was taken out of the bank already."),
    Why.OTHER_USE: gettext_lazy(
        "The specimen of that name, place and day serves for the other use, and one specimen never serves for "
        "both; correct the use, or give it another specimen."
    ),
    Why.LACKS: gettext_lazy("Say first: {lacking}. Until then it waits in the tray, where nobody is shown it."),
    Why.SORTED: gettext_lazy("This is not in the tray any more: somebody has sorted it. Look at the tray again."),
    Why.ONLY_PICTURE: gettext_lazy(
        "This is the only picture of the specimen. Take the whole specimen out of the bank instead."
    ),
    Why.ELSEWHERE: gettext_lazy("One of the pictures belongs to another specimen by now; look at the tray again."),
    Why.UNSORTED: gettext_lazy("It lies in the tray still; sort it first."),
    Why.DAYS_DIFFER: gettext_lazy(
        "The pictures were taken on different days. A plant that is met again is another specimen: say on its page "
        "which plant it is."
    ),
    Why.NAMES_DIFFER: gettext_lazy("They were given different names; make the names agree first."),
    Why.NONE_LEFT: gettext_lazy("Every picture was chosen; leave at least one where it is."),
    Why.NONE_CHOSEN: gettext_lazy("Nothing was chosen; tick what you mean."),
}
LACKS = {
    Lack.STAGE: gettext_lazy("what is showing"),
    Lack.PART: gettext_lazy("the part that each picture shows"),
    Lack.RIGHTS: gettext_lazy("whose pictures they are"),
    Lack.LICENCE: gettext_lazy("the licence"),
}


def sentence_on_step(why: Why, uses: Iterable[str] = (), lacking: Iterable[Lack] = ()) -> str:
    """One refusal in a sentence that says what to do."""
    words = ", ".join(str(LACKS[each]) for each in lacking)
    return str(SENTENCES[why]).format(uses=", ".join(uses), lacking=words)
