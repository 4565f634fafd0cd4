"""A ZIP archive of photographs, by the page and by the command: taken file by file, or refused whole."""

import zipfile
from collections.abc import Callable
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.urls import reverse

from species.models import Photo, Specimen
from species.models.photos import photo_storage
from tests.factories import pictures
from tests.factories.species import make_species

ONE = reverse("species:upload_one")
ROW = "file,species,stage,part,use,licence,photographer\n"


@pytest.fixture(autouse=True)
def plants(school):
    return make_species("goodleaf"), make_species("badleaf", deadly=True)


def zipped(files: dict[str, bytes]) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return out.getvalue()


def by_page(client, content: bytes, **more: object) -> str:
    file = SimpleUploadedFile("walk.zip", content, "application/zip")
    return client.post(ONE, {"photos": [file], "use": "", "stage": "", **more}).content.decode()


def by_command(path: Path, *options: str) -> str:
    out = StringIO()
    try:
        call_command("import_photos", str(path), *options, stdout=out, stderr=out)
    except CommandError as error:
        out.write(str(error))
    return out.getvalue()


@pytest.fixture(params=["page", "command"])
def bring(request, signed_in, tutor, tmp_path) -> Callable[..., str]:
    """Bring an archive in on one of the two ways; what is said about it."""

    def go(content: bytes, dry_run: bool = False) -> str:
        if request.param == "page":
            return by_page(signed_in(tutor), content, **({"dry_run": "on"} if dry_run else {}))
        path = tmp_path / "walk.zip"
        path.write_bytes(content)
        return by_command(path, "--by", tutor.user.email, *(["--dry-run"] if dry_run else []))

    return go


def test_every_photograph_in_it_waits_in_the_tray(bring):
    said = bring(zipped({"a.jpg": pictures.jpeg(), "day/b.png": pictures.png(2), "notes.txt": b"words"}))
    assert Specimen.objects.in_the_tray().count() == Photo.objects.count() == 2
    assert "notes.txt" in said
    assert "not a picture by its name" in said


def test_again_adds_nothing(bring):
    content = zipped({"a.jpg": pictures.jpeg()})
    bring(content)
    assert "there already" in bring(content)
    assert Photo.objects.count() == 1


def test_a_dry_run_looks_at_everything_and_keeps_nothing(bring):
    before = set(Path(photo_storage().path("")).rglob("*.jpg"))
    said = bring(zipped({"a.jpg": pictures.jpeg(), "b.jpg": b"no picture"}), dry_run=True)
    assert "there is no picture in it" in said
    assert (Photo.objects.count(), Specimen.objects.count()) == (0, 0)
    assert set(Path(photo_storage().path("")).rglob("*.jpg")) == before


def test_a_manifest_in_it_says_what_they_are(bring):
    table = ROW + "a.jpg,Bad leaf,flower,leaf,assessment,CC0,F. Finder\n"
    bring(zipped({"manifest.csv": table.encode(), "a.jpg": pictures.jpeg()}))
    specimen = Specimen.objects.get()
    assert (specimen.use, specimen.stage, specimen.settlement) == ("assessment", "flower", "single")


def test_a_manifest_with_wrong_columns_brings_nothing_in(bring):
    said = bring(zipped({"manifest.csv": b"file,specis\na.jpg,badleaf\n", "a.jpg": pictures.jpeg()}))
    assert "nearest: species" in said
    assert not Photo.objects.exists()


def test_a_wrong_name_is_one_refused_file_with_the_nearest_name(bring):
    table = ROW + "a.jpg,badlaef,,,,,\n"
    said = bring(zipped({"manifest.csv": table.encode(), "a.jpg": pictures.jpeg(), "b.jpg": pictures.jpeg(seed=3)}))
    assert "nearest: badleaf" in said
    assert Photo.objects.count() == 1


@pytest.mark.parametrize(
    ("files", "sentence"),
    [
        ({"../a.jpg": pictures.jpeg(), "b.jpg": pictures.jpeg(seed=4)}, "leads out of the archive"),
        ({"a.jpg": bytes(3_000_000), "b.jpg": pictures.jpeg(seed=4)}, "unpacks to many times its size"),
        ({f"{n}.jpg": b"x" for n in range(501)}, "files in it"),
    ],
)
def test_a_trap_is_refused_whole(bring, files, sentence):
    assert sentence in bring(zipped(files))
    assert not Photo.objects.exists()


def test_an_archive_in_an_archive_is_not_opened(bring):
    said = bring(zipped({"inner.zip": zipped({"a.jpg": pictures.jpeg()})}))
    assert "inner.zip" in said
    assert "not a picture by its name" in said
    assert not Photo.objects.exists()


def test_what_is_no_archive_is_a_sentence(bring):
    assert "no ZIP archive" in bring(b"PK nothing of the kind")
    assert "no ZIP archive" in bring(zipped({"a.jpg": pictures.jpeg()})[:-40])


def test_an_empty_archive_says_so(signed_in, tutor):
    assert "there is no photograph in it" in by_page(signed_in(tutor), zipped({}))


def test_a_file_that_was_changed_inside_is_broken_and_the_rest_is_taken(bring):
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        archive.writestr("a.jpg", pictures.jpeg(seed=1))
        archive.writestr("b.jpg", pictures.jpeg(seed=2))
    content = bytearray(out.getvalue())
    content[3000] ^= 0xFF  # in the middle of the first
    assert "broken or cut short" in bring(bytes(content))
    assert Photo.objects.count() == 1


def test_the_page_takes_smaller_archives_than_the_command(signed_in, tutor):
    assert "more than 60 files" in by_page(signed_in(tutor), zipped({f"{n}.jpg": b"x" for n in range(61)}))


def test_a_manifest_beside_an_archive_is_refused(tmp_path):
    path = tmp_path / "a.zip"
    path.write_bytes(zipped({"a.jpg": pictures.jpeg()}))
    assert "lies in it, as manifest.csv" in by_command(path, "--manifest", str(tmp_path / "m.csv"))


def test_a_picture_that_is_an_archive_and_a_page_too_is_served_as_nothing_but_a_picture(signed_in, tutor):
    payload = b"<script>alert(1)</script>" + zipped({"evil.js": b"alert(1)"})
    file = SimpleUploadedFile("a.jpg", pictures.jpeg() + payload, "image/jpeg")
    signed_in(tutor).post(ONE, {"photos": [file], "use": "", "stage": ""})
    for row in Photo.objects.get().renditions.all():
        with row.file.open("rb") as served:
            content = served.read()
        assert b"<script>" not in content
        assert b"PK\x03\x04" not in content


def test_one_file_is_answered_with_one_line_and_wrong_answers_with_what_to_mend(signed_in, tutor):
    client = signed_in(tutor)
    file = SimpleUploadedFile("IMG.jpg", pictures.jpeg(), "image/jpeg")
    answer = client.post(ONE, {"photos": [file], "use": "", "stage": ""}).content.decode()
    assert answer.count("<li data-outcome=") == 1
    assert 'data-outcome="TAKEN"' in answer
    file = SimpleUploadedFile("IMG.jpg", pictures.jpeg(seed=8), "image/jpeg")
    wrong = client.post(ONE, {"photos": [file], "use": "teaching", "stage": ""})
    assert wrong.status_code == 422
    assert "Say under which licence" in wrong.content.decode()
    assert Photo.objects.count() == 1


def test_files_of_one_page_that_are_sent_one_by_one_are_still_one_specimen(signed_in, tutor):
    client = signed_in(tutor)
    for seed in (1, 2):
        file = SimpleUploadedFile(f"{seed}.jpg", pictures.jpeg(seed=seed), "image/jpeg")
        client.post(ONE, {"photos": [file], "use": "", "stage": "", "is_one": "on", "batch": "b1"})
    assert Specimen.objects.get().photos.count() == 2


def test_only_those_who_keep_the_bank_send_files(client, signed_in, participant, assessor):
    assert client.post(ONE).status_code == 302
    for person in (participant, assessor):
        assert signed_in(person).post(ONE).status_code == 403
    assert client.get(ONE).status_code in (302, 405)
