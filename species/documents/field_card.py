"""The field card of one species: one page A6. For a dangerous plant the card says so before anything else."""

from dataclasses import dataclass

from reportlab.lib.pagesizes import A6

from species.documents.flow import Block, Run, plain
from species.documents.laying import draw_pages, laid_out
from species.documents.page import QUIET, RUST, Paper
from species.documents.pair_words import Letterhead
from species.documents.parts import Alarm, Part, Words

MARGIN = 14.0
WIDTH, HEIGHT = A6
LARGEST, SMALLEST = 8.6, 4.6


@dataclass(frozen=True)
class LookalikeWords:
    """A plant that is mistaken for this one, or the other way round: how, how bad, and the rule in a sentence."""

    common: str
    scientific: str
    how: str
    is_dangerous: bool
    rule: str


@dataclass(frozen=True)
class FieldCardWords:
    """Everything on a card, translated, in the order of reading; what is empty is left out."""

    language: str
    letterhead: Letterhead
    danger: str
    common: str
    scientific: str
    author: str
    family: str
    edibility: str
    also: str
    """Other common names and synonyms, in one sentence each."""
    parts_heading: str
    parts: tuple[str, ...]
    lookalikes_heading: str
    lookalikes: tuple[LookalikeWords, ...]
    sections: tuple[tuple[str, str], ...]
    """Heading and sentence: precautions, where it grows, when it shows, the law, manners."""
    cautions: tuple[str, ...]


def draw_field_card(words: FieldCardWords) -> bytes:
    """One page A6. Raises DoesNotFit, CannotPrint."""
    size, pages = laid_out(_parts(words), HEIGHT - 2 * MARGIN, 1, LARGEST, SMALLEST)
    paper = Paper(f"{words.common} ({words.scientific})", words.language, words.letterhead.school, words.edibility, A6)
    draw_pages(paper, pages, MARGIN, HEIGHT - MARGIN, size)
    return paper.finish()


def _parts(words: FieldCardWords) -> list[Part]:
    width = WIDTH - 2 * MARGIN
    parts: list[Part] = [Alarm(words.danger, width)] if words.danger else []
    parts.append(Words(_head(words), width))
    if words.lookalikes:
        heading = plain(words.lookalikes_heading, role="H2", bold=True, scale=1.08)
        parts.append(Words((heading, *(_lookalike(each) for each in words.lookalikes)), width))
    if words.parts:
        heading = plain(words.parts_heading, role="H2", bold=True, scale=1.08)
        parts.append(Words((heading, *(plain(each, above=0.1) for each in words.parts)), width))
    parts += [
        Words((Block((Run(heading, bold=True), Run(f" {text}")), above=0.25),), width)
        for heading, text in words.sections
    ]
    cautions = " ".join(words.cautions)
    last = (plain(cautions, scale=0.88), plain(words.letterhead.call, bold=True, scale=0.95, above=0.2))
    parts.append(Words((*last, plain(words.letterhead.school, colour=QUIET, scale=0.8, above=0.2)), width))
    return parts


def _head(words: FieldCardWords) -> tuple[Block, ...]:
    name = [Run(words.scientific, italic=True, language="la")]
    name += [Run(f" {words.author}", colour=QUIET)] if words.author else []
    colour = RUST if words.danger else QUIET
    kind = Block((Run(f"{words.family}. ", colour=QUIET), Run(words.edibility, bold=True, colour=colour)), above=0.1)
    head = [
        plain(words.common, role="H1", bold=True, scale=1.7, above=0.1),
        Block(tuple(name), scale=1.1, above=0),
        kind,
    ]
    return (*head, plain(words.also, colour=QUIET, above=0.1)) if words.also else tuple(head)


def _lookalike(each: LookalikeWords) -> Block:
    runs = (
        Run(each.common, bold=True), Run(f" {each.scientific}", italic=True, language="la"), Run(" "),
        Run(each.how, bold=each.is_dangerous, colour=RUST if each.is_dangerous else QUIET), Run(f" {each.rule}"),
    )  # fmt: skip
    return Block(tuple(run for run in runs if run.text.strip() or run.text == " "), above=0.2)
