"""What stands in the way of a certificate, in words: for the page, the refusal and the command alike."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from assessments.queries.flora import Flora
from assessments.queries.sentences.gaps import gap_lines
from courses.rules.certification import Certification, Obstacle

SENTENCES = {
    Obstacle.NOT_APPLIED: (_("Nobody has applied for this certificate."), _("The person applies on their own page.")),
    Obstacle.NO_DECIDER: (_("Nobody decides yet."), _("An organiser decides.")),
    Obstacle.DECIDER_IS_THE_HOLDER: (
        _("You would decide on a certificate of your own."),
        _("Ask another organiser to decide."),
    ),
    Obstacle.DECIDER_MAY_NOT_DECIDE: (_("Only organisers decide."), _("Ask an organiser to decide.")),
    Obstacle.DECIDER_TAUGHT: (
        _("You taught this person, so you may not decide."),
        _("Ask an organiser who did not, or give that role to somebody who is not involved."),
    ),
    Obstacle.DECIDER_ASSESSED: (
        _("You set or recorded a test of this person, or decided an appeal of theirs, so you may not decide."),
        _("Ask an organiser who did not, or give that role to somebody who is not involved."),
    ),
    Obstacle.DECIDER_HAS_CONFLICT: (
        _("You declared a conflict of interest with this person, so you may not decide."),
        _("Ask another organiser to decide, or give that role to somebody who is not involved."),
    ),
    Obstacle.NOT_AGREED: (
        _("The person has not agreed yet to how a certificate may be used."),
        _("They agree on their own page, below this standard."),
    ),
    Obstacle.RENEWED_ON_OLD_EVIDENCE: (
        _("The renewal would rest on the tests of the certificate that it renews."),
        _("It takes new tests: begin the renewal, then set a paper and live checks."),
    ),
    Obstacle.RENEWED_STANDS_STILL: (
        _("The certificate that it renews is suspended or withdrawn, or was renewed already."),
        _("Decide about that one first. What is withdrawn is not renewed: the person applies anew without renewing."),
    ),
    Obstacle.HAS_A_CURRENT_ONE: (
        _("The person holds a certificate under this version already."),
        _("It can be renewed when it runs out, or withdrawn."),
    ),
    Obstacle.PASS_RAN_OUT: (
        _("The pass is so old that a certificate on it would have run out already."),
        _("It takes new tests, in the next period of evidence."),
    ),
    Obstacle.WORDS_CANNOT_BE_PRINTED: (
        _("The name of a plant, the school, the standard or the decider has letters that the paper cannot show."),
        _("An organiser writes that name in Latin, Greek or Cyrillic letters where it is kept."),
    ),
    Obstacle.NAME_CANNOT_BE_PRINTED: (
        _("The name of the person has letters that the paper cannot show."),
        _("An organiser writes it in Latin, Greek or Cyrillic letters on the page of the person."),
    ),
}


@dataclass(frozen=True)
class Missing:
    """One line of what is missing: the sentence, what would meet it, and figures that can be opened."""

    sentence: str
    remedy: str = ""
    figures: tuple[tuple[str, str], ...] = ()


def missing_lines(found: Certification, flora: Flora) -> list[Missing]:
    """Everything in the way, evidence first; empty exactly when the certificate may be issued."""
    lines = [Missing(line.sentence, line.remedy, line.figures) for line in gap_lines(found.standing, flora)]
    for obstacle in found.obstacles:
        if obstacle is not Obstacle.EVIDENCE_MISSING:
            sentence, remedy = SENTENCES[obstacle]
            lines.append(Missing(str(sentence), str(remedy)))
    return lines
