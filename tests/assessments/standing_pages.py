"""What the tests of the pages of a standing ask again and again."""

import re
from html import unescape

from django.urls import reverse

from tests.courses.markup import found

FIGURE = re.compile(r"\d+")


def page(name: str, *args) -> str:
    return reverse(f"assessments:{name}", args=args)


def text_of(client, url: str) -> str:
    answer = client.get(url)
    assert answer.status_code == 200, url
    return answer.content.decode()


def ledger_url(standard, species, side="dangerous", query="", person=None) -> str:
    if person is None:
        return page("ledger", standard.key, species.key, side) + query
    return page("ledger_of", person.pk, standard.key, species.key, side) + query


def figures_that_open(html: str) -> list[tuple[str, int]]:
    """Address and number of every link whose words begin with a number of answers."""
    links = [(unescape(each.attributes["href"] or ""), each.text) for each in found(html, "a")]
    counting = ("show=needed", "show=counted")
    return [
        (href, int(words.split()[0]))
        for href, words in links
        if "show=" in href and FIGURE.match(words) and not any(part in href for part in counting)
    ]
