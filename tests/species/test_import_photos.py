"""`manage.py import_photos`: what can be taken is taken, every other file is refused with its reason."""

import json
from collections.abc import Callable
from datetime import date
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from PIL import Image

from species.models import Determination, Photo, PhotoRendition, Specimen
from species.models.photos import photo_storage
from species.rules.vocabulary import Settlement
from tests.factories import pictures
from tests.factories.species import make_species

HEADER = "file,species,stage,use,locality,date,form,part,photographer,licence,specimen\n"


@pytest.fixture
def folder(school, tmp_path: Path) -> Path:
    make_species("goodleaf", name="Bona folia", key="bona-folia")
    make_species("badleaf", deadly=True, name="Mala folia", key="mala-folia")
    (tmp_path / "in").mkdir()
    return tmp_path / "in"


def stored_files() -> set[Path]:
    return set(Path(photo_storage().path("")).rglob("*.jpg"))


@pytest.fixture
def manifest(tmp_path: Path) -> Callable[..., Path]:
    """Write a manifest with these rows, beside the folder."""

    def write(*rows: str, header: str = HEADER) -> Path:
        path = tmp_path / "manifest.csv"
        path.write_text(header + "\n".join(rows), "utf-8")
        return path

    return write


def bring(folder: Path, *options: object) -> str:
    """What the command says, whether it ends well or not."""
    out = StringIO()
    try:
        call_command("import_photos", str(folder), *map(str, options), stdout=out, stderr=out)
    except CommandError as error:
        out.write(str(error))
    return out.getvalue()


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_camera_may_be_held_in_any_of_eight_ways(folder, orientation):
    (folder / "a.jpg").write_bytes(pictures.jpeg(orientation))
    assert "taken" in bring(folder)
    row = PhotoRendition.objects.get(width=480, media_type="image/jpeg")
    with row.file.open("rb") as file:
        image = Image.open(BytesIO(file.read()))
    assert (image.size, pictures.corners_of(image)) == ((480, 360), list(pictures.CORNERS))


@pytest.mark.parametrize(
    ("name", "make"),
    [("a.jpg", pictures.jpeg), ("a.png", pictures.png), ("a.webp", pictures.webp), ("a.HEIC", pictures.heic)],
)
def test_nothing_of_what_the_camera_wrote_is_served(folder, name, make):
    content = make()
    assert all(word in content for word in pictures.TELLTALES[:2])
    (folder / name).write_bytes(content)
    bring(folder)
    rows = list(PhotoRendition.objects.all())
    assert {row.media_type for row in rows} == {"image/jpeg", "image/webp"}
    for row in rows:
        with row.file.open("rb") as file:
            served = file.read()
        assert not [word for word in [*pictures.TELLTALES, b"Exif", b"http://ns.adobe.com"] if word in served]
        assert not Image.open(BytesIO(served)).getexif()
        assert name.split(".")[0] != Path(row.file.name).stem


def test_the_camera_says_the_day(folder):
    (folder / "a.jpg").write_bytes(pictures.jpeg(taken="2026:03:04 10:00:00"))
    bring(folder)
    assert Specimen.objects.get().seen_on == date(2026, 3, 4)


def test_a_file_that_no_row_names_waits_in_the_tray_without_a_name(folder):
    (folder / "a.png").write_bytes(pictures.png())
    bring(folder)
    specimen = Specimen.objects.get()
    assert (specimen.use, specimen.settlement, specimen.species) == ("", Settlement.UNDETERMINED, None)


REFUSED = {
    "empty.jpg": (b"", "the file is empty"),
    "notes.txt": (b"not a picture", "not a picture by its name"),
    "words.jpg": (b"not a picture", "no picture in it"),
    "drawing.svg": (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not a picture by its name"),
    "png.jpg": (pictures.png(), "it holds PNG"),
    "short.jpg": (pictures.jpeg()[:4000], "broken or cut short"),
    "short.png": (pictures.png()[:-4000], "broken or cut short"),
    "short.heic": (pictures.heic()[:-4000], "refused"),
    "bomb.png": (pictures.huge_png_header(), "too many pixels"),
}


def test_what_cannot_be_taken_is_refused_one_by_one_and_the_rest_is_taken(folder):
    for name, (content, _reason) in REFUSED.items():
        (folder / name).write_bytes(content)
    (folder / "zz good.jpg").write_bytes(pictures.jpeg())
    said = bring(folder)
    for name, (_content, reason) in REFUSED.items():
        assert any(line.startswith(f"{name}: refused") and reason in line for line in said.splitlines()), said
    assert "1 taken, 0 there already, 9 refused." in said
    assert Photo.objects.count() == 1


def test_a_file_that_is_too_large_is_not_even_read(folder, settings):
    settings.PHOTO_LARGEST_BYTES = 1000
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    assert "too large" in bring(folder)


def test_twice_adds_nothing_and_says_where_it_is(folder):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    (folder / "copy of a.jpg").write_bytes(pictures.jpeg())
    assert "copy of a.jpg: the same picture as a.jpg" in bring(folder)
    specimen = Specimen.objects.get()
    assert f"is there already, in specimen {specimen.key}" in bring(folder)
    assert (Specimen.objects.count(), Photo.objects.count()) == (1, 1)


def test_a_manifest_says_what_is_seen_and_who_says_so(folder, manifest, tutor):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    path = manifest("a.jpg,Bad-Leaf,flower,assessment,Long Bank,2026-05-02,pale,stem,F. Finder,CC BY 4.0,")
    bring(folder, "--manifest", path, "--by", tutor.user.email)
    specimen, photo = Specimen.objects.get(), Photo.objects.get()
    assert (specimen.stage, specimen.use, specimen.seen_on, specimen.form) == (
        "flower", "assessment", date(2026, 5, 2), "pale",
    )  # fmt: skip
    assert specimen.individual.locality.name == "Long Bank"
    assert (specimen.settlement, specimen.species.key) == (Settlement.SINGLE, "mala-folia")
    assert (photo.part, photo.photographer, photo.licence) == ("stem", "F. Finder", "CC BY 4.0")
    assert Determination.objects.get().determiner == tutor.user


def test_the_same_manifest_by_somebody_else_is_no_second_opinion(folder, manifest, tutor, assessor):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    path = manifest("a.jpg,badleaf,,,,,,,,,")
    bring(folder, "--manifest", path, "--by", tutor.user.email)
    bring(folder, "--manifest", path, "--by", assessor.user.email)
    assert Specimen.objects.get().settlement == Settlement.SINGLE


def test_names_that_nobody_says_are_notes(folder, manifest, tutor, assessor):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    assert "give --by EMAIL" in bring(folder, "--manifest", manifest("a.jpg,badleaf,,,,,,,,,"))
    assert Specimen.objects.get().note == "The manifest calls it: badleaf"
    assert not Determination.objects.exists()


def test_files_of_one_specimen_are_one_specimen_even_when_one_comes_later(folder, manifest, tutor):
    rows = [f"{n}.jpg,badleaf,rosette,assessment,Long Bank,2026-05-02,,leaf,F. Finder,CC0,plant A" for n in (1, 2, 3)]
    for number in (1, 2):
        (folder / f"{number}.jpg").write_bytes(pictures.jpeg(seed=number))
    bring(folder, "--manifest", manifest(*rows[:2]), "--by", tutor.user.email)
    (folder / "3.jpg").write_bytes(pictures.jpeg(seed=3))
    bring(folder, "--manifest", manifest(*rows), "--by", tutor.user.email)
    assert Specimen.objects.get().photos.count() == 3


def test_one_specimen_never_serves_for_both_uses(folder, manifest):
    row = "{}.jpg,,rosette,{},Long Bank,2026-05-02,,leaf,F. Finder,CC0,plant A"
    for number in (1, 2):
        (folder / f"{number}.jpg").write_bytes(pictures.jpeg(seed=number))
    said = bring(folder, "--manifest", manifest(row.format(1, "assessment"), row.format(2, "teaching")))
    assert "specimen plant A has 'teaching' here and 'assessment' in row 2" in said
    (folder / "1.jpg").unlink()
    assert "serves for the other use" in bring(folder, "--manifest", manifest(row.format(2, "teaching")))
    assert Specimen.objects.get().use == "assessment"


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        ("a.jpg,badlaef,,,,,,,,,", "row 2, species: no plant of the school is called 'badlaef'; nearest: badleaf"),
        ("a.jpg,,blossom,,,,,,,,", "row 2, stage: 'blossom' is not one of: seedling, rosette"),
        ("a.jpg,,,exam,,,,,,,", "row 2, use: 'exam' is not one of: teaching, assessment"),
        ("a.jpg,,,,,4 May,,,,,", "row 2, date: '4 May' is no date; write year-month-day"),
        ("b.jpg,,,,,,,,,,", "row 2, file: 'b.jpg' is not in the folder"),
        ("../a.jpg,,,,,,,,,,", "row 2, file: '../a.jpg' is not in the folder"),
    ],
)
def test_a_wrong_row_is_named_with_what_would_be_right(folder, manifest, row, sentence):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    (folder / "c.jpg").write_bytes(pictures.jpeg(seed=9))
    assert sentence in bring(folder, "--manifest", manifest(row))
    assert Photo.objects.filter(width=480).exists()


def test_a_manifest_with_other_columns_brings_nothing_in(folder, manifest):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    said = bring(folder, "--manifest", manifest("a.jpg,badleaf", header="file,specis\n"))
    assert "specis: no such column belongs here; nearest: species" in said
    assert "nothing was brought in" in said
    assert not Photo.objects.exists()


def test_a_dry_run_tries_everything_and_keeps_nothing(folder, manifest):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    before = stored_files()
    said = bring(folder, "--dry-run", "--manifest", manifest("a.jpg,,,,A new place,,,,,,"))
    assert "1 taken" in said
    assert "nothing was kept" in said
    assert not Photo.objects.exists()
    assert not Specimen.objects.exists()
    assert stored_files() == before


def test_files_go_when_their_row_fails(folder, monkeypatch):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    before = stored_files()

    def fail(**fields: object) -> None:
        raise RuntimeError

    monkeypatch.setattr(PhotoRendition.objects, "create", fail)
    with pytest.raises(RuntimeError):
        bring(folder)
    assert stored_files() == before
    assert not Specimen.objects.exists()


def test_a_picture_that_looks_the_same_is_reported_and_stays_its_own_specimen(folder):
    (folder / "a.jpg").write_bytes(pictures.jpeg(seed=1))
    small = BytesIO()
    pictures.upright(seed=1).resize((400, 300)).save(small, "JPEG", quality=60)
    (folder / "b.jpg").write_bytes(small.getvalue())
    assert "looks like a picture of specimen" in bring(folder)
    assert Specimen.objects.count() == 2


def test_the_report_can_be_read_by_a_program(folder):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    (folder / "b.jpg").write_bytes(b"nothing")
    out = StringIO()
    with pytest.raises(CommandError, match="1 refused"):
        call_command("import_photos", str(folder), "--json", stdout=out)
    files = json.loads(out.getvalue())["files"]
    assert [(each["file"], each["outcome"]) for each in files] == [("a.jpg", "taken"), ("b.jpg", "refused")]


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (["--by", "nobody@example.org"], "No account has the address"),
        (["--manifest", "/nowhere/m.csv"], "cannot be read"),
    ],
)
def test_a_wrong_option_is_one_sentence(folder, options, sentence):
    assert sentence in bring(folder, *options)


def test_a_folder_that_is_none_is_refused(folder):
    assert "is no folder" in bring(folder / "else")


def test_participants_do_not_name_plants(folder, participant):
    assert "may not name plants" in bring(folder, "--by", participant.user.email)


def test_pictures_of_one_specimen_without_a_date_stay_one_specimen(folder, manifest):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    (folder / "b.png").write_bytes(pictures.png())
    bring(folder, "--manifest", manifest("a.jpg,,,,Wood,,,,,,one", "b.png,,,,Wood,,,,,,one"))
    assert Specimen.objects.get().photos.count() == 2


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        (
            "a.jpg,,,assessment,,,,,,,",
            "Say first: what is showing, the part that each picture shows, whose pictures they are, the licence",
        ),
        ("a.jpg,,rosette,,,2999-01-01,,,,,", "lies ahead"),
    ],
)
def test_what_cannot_be_right_is_refused_and_nothing_is_kept(folder, manifest, row, sentence):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    before = stored_files()
    assert sentence in bring(folder, "--manifest", manifest(row))
    assert not Specimen.objects.exists()
    assert stored_files() == before


def test_a_single_tutor_is_not_made_the_author_of_names_that_nobody_said(folder, manifest, tutor):
    (folder / "a.jpg").write_bytes(pictures.jpeg())
    bring(folder, "--manifest", manifest("a.jpg,badleaf,,,,,,,,,"))
    assert not Determination.objects.exists()
