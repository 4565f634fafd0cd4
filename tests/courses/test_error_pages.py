"""The pages for what went wrong stand without the site's context and say what to do."""

import pytest
from django.template.loader import get_template

from tests.courses.markup import faults, found


@pytest.mark.parametrize("name", ["400.html", "403_csrf.html", "429.html", "500.html"])
def test_it_stands_without_a_request_or_a_database(name):
    html = get_template(name).render()
    assert faults(html) == []
    assert len(found(html, "h1")) == 1
    assert "Nothing was changed." in html or name == "500.html"


@pytest.mark.django_db
def test_a_page_that_is_not_there_says_so_within_the_site(client, school):
    answer = client.get("/nothing/grows/here/")
    html = answer.content.decode()
    assert answer.status_code == 404
    assert faults(html) == []
    assert school.name in html


def test_a_damaged_page_still_says_whom_to_call():
    assert "poisons service" in get_template("500.html").render()
