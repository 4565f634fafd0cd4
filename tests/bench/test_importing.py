"""The bench of the import still runs, and brings in what it measures; how long it takes is nobody's test."""

import pytest

from species.models import Photo

from . import importing as bench

SMALL = (480, 360)


@pytest.fixture
def paths(tmp_path):
    return bench.make_files(tmp_path, 9, SMALL)


def test_every_file_differs_and_is_a_picture_of_its_size(paths):
    assert len({path.read_bytes() for path in paths}) == 9
    assert bench.Image.open(paths[8]).size == SMALL


def test_the_floor_makes_every_width_of_every_file(paths):
    assert bench.bare(paths) == bench.bare(paths[:9], save=True) == 9 * len(bench.WIDTHS)


@pytest.mark.django_db(transaction=True)
def test_every_file_is_brought_in_once(paths):
    assert bench.brought_in(paths) == 9
    assert bench.brought_in(paths) == 0
    assert Photo.objects.count() == 9


@pytest.mark.django_db
def test_both_floors_and_the_import_are_measured(paths):
    costs = bench.compare(paths[:2])
    assert list(costs) == ["bare", "saved", "import"]
    assert min(cost.wall for cost in costs.values()) > 0
