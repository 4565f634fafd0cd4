"""Which pairs a course did not teach, and why."""

from courses.rules.after import Reason, TaughtFacts, untaught


def why(*facts: TaughtFacts) -> list[Reason]:
    return [each.reason for each in untaught(["a"], facts)]


def test_one_meeting_that_taught_it_is_enough() -> None:
    assert why(TaughtFacts("a", was_cancelled=True), TaughtFacts("a")) == []


def test_each_reason() -> None:
    assert why() == [Reason.NOT_PLANNED]
    assert why(TaughtFacts("a", was_cancelled=True)) == [Reason.CANCELLED]
    assert why(TaughtFacts("a", was_left_out=True)) == [Reason.NOT_TAUGHT]
    assert why(TaughtFacts("a", showed=False)) == [Reason.NOT_SHOWING]


def test_what_is_still_to_come_is_not_missed_yet() -> None:
    assert why(TaughtFacts("a", was_held=False)) == []


def test_a_cancelled_meeting_ahead_is() -> None:
    assert why(TaughtFacts("a", was_held=False, was_cancelled=True)) == [Reason.CANCELLED]


def test_the_words_of_the_last_meeting_are_given() -> None:
    (found,) = untaught(["a"], [TaughtFacts("a", was_cancelled=True, because="flood")])
    assert found.because == "flood"
