"""An archive is looked through before anything of it is unpacked; a trap is refused whole."""

import stat
import struct
import zipfile
from io import BytesIO

import pytest

from species.documents.archives import ArchiveLimits, ArchiveRefusal, BadArchive, BrokenMember, members_of

LIMITS = ArchiveLimits(bytes=5_000_000, members=5, unpacked=4_000_000, ratio=20)


def zipped(*members: tuple[str | zipfile.ZipInfo, bytes], how: int = zipfile.ZIP_DEFLATED) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w", how) as archive:
        for name, content in members:
            archive.writestr(name, content)
    return out.getvalue()


def why(content: bytes, limits: ArchiveLimits = LIMITS) -> tuple[ArchiveRefusal, str]:
    with pytest.raises(BadArchive) as caught:
        members_of(BytesIO(content), len(content), limits)
    return caught.value.reason, caught.value.figure


def link() -> zipfile.ZipInfo:
    found = zipfile.ZipInfo("a.jpg")
    found.external_attr = (stat.S_IFLNK | 0o777) << 16
    return found


def test_files_are_listed_and_read_and_what_systems_hide_is_not():
    content = zipped(("in/a.jpg", b"one"), ("in/", b""), ("__MACOSX/in/._a.jpg", b"x"), (".hidden/b.jpg", b"y"))
    members = members_of(BytesIO(content), len(content), LIMITS)
    assert [(each.name, each.size, each.read()) for each in members] == [("in/a.jpg", 3, b"one")]


@pytest.mark.parametrize(
    "name", ["../a.jpg", "in/../../a.jpg", "/etc/a.jpg", "C:/a.jpg", "in\\..\\a.jpg", "\\\\there\\a.jpg"]
)
def test_a_path_that_leads_out_is_refused(name):
    assert why(zipped((name, b"x")))[0] is ArchiveRefusal.LEAVES_FOLDER


def test_a_link_is_refused():
    assert why(zipped((link(), b"/etc/passwd"))) == (ArchiveRefusal.LINK, "a.jpg")


def test_a_file_that_unpacks_to_many_times_its_size_is_refused():
    assert why(zipped(("a.jpg", bytes(2_000_000)))) == (ArchiveRefusal.TOO_DENSE, "a.jpg")


def test_many_files_that_are_small_each_are_too_much_together():
    members = [(f"{n}.csv", bytes(900_000)) for n in range(5)]
    assert why(zipped(*members))[0] is ArchiveRefusal.TOO_MUCH


def test_too_many_files_are_refused_before_their_list_is_read(monkeypatch):
    def fail(*_arguments: object) -> None:
        raise AssertionError("the list was read")

    monkeypatch.setattr(zipfile, "ZipFile", fail)
    content = BytesIO()
    monkeypatch.undo()
    content = zipped(*[(f"{n}.jpg", b"x") for n in range(6)])
    monkeypatch.setattr(zipfile, "ZipFile", fail)
    assert why(content) == (ArchiveRefusal.TOO_MANY, "5")


def test_an_archive_that_lies_about_how_many_files_it_has_is_refused_by_the_length_of_its_list():
    content = zipped(*[("n" * 200 + f"{n}.jpg", b"x") for n in range(60)])
    end = content.rfind(b"PK\x05\x06")
    lying = content[: end + 8] + struct.pack("<2H", 1, 1) + content[end + 12 :]
    assert why(lying)[0] is ArchiveRefusal.TOO_MANY


def test_an_archive_that_is_too_large_is_not_opened():
    assert why(b"x" * 6_000_000)[0] is ArchiveRefusal.TOO_LARGE


NO_ARCHIVES = [b"", b"nothing", zipped(("a.jpg", b"x" * 500))[:-30], b"PK\x05\x06" + bytes(10)]


@pytest.mark.parametrize("content", NO_ARCHIVES, ids=["empty", "words", "cut short", "no end"])
def test_what_is_no_archive_or_cut_short_is_refused(content):
    assert why(content)[0] is ArchiveRefusal.NO_ARCHIVE


def test_a_locked_file_is_refused():
    content = bytearray(zipped(("a.jpg", b"x")))
    content[content.find(b"PK\x01\x02") + 8] |= 1
    assert why(bytes(content)) == (ArchiveRefusal.LOCKED, "a.jpg")


def test_the_same_path_twice_is_refused():
    assert why(zipped(("a.jpg", b"x"), ("A.jpg", b"y"))) == (ArchiveRefusal.TWICE, "A.jpg")


def test_a_file_whose_bytes_were_changed_is_broken_and_the_others_are_not():
    content = zipped(("a.jpg", b"abcdefgh"), ("b.jpg", b"fine"), how=zipfile.ZIP_STORED).replace(
        b"abcdefgh", b"abcdefgX"
    )
    first, second = members_of(BytesIO(content), len(content), LIMITS)
    with pytest.raises(BrokenMember):
        first.read()
    assert second.read() == b"fine"


def test_an_archive_inside_an_archive_is_a_file_like_any_other():
    inner = zipped(("bomb.jpg", bytes(900_000)))
    content = zipped(("inner.zip", inner))
    assert members_of(BytesIO(content), len(content), LIMITS)[0].read() == inner
