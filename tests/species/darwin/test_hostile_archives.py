"""Archives that are traps, broken, or written by strangers: refused with a sentence, or read; never half."""

import zipfile
from io import BytesIO

import pytest

from species.documents.archives import ArchiveRefusal, BadArchive
from species.models import Determination, Locality, Photo, Species, Specimen
from species.queries.archive_sentences import sentence_on
from species.rules.vocabulary import Settlement
from tests.species.darwin.archives import (
    brought,
    files_of,
    full_plant,
    photographed,
    picture_bytes,
    plant,
    species_archive,
    specimen,
    specimen_archive,
    user,
    with_files,
    with_text,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def by(db):
    return user("keeper@example.org")


def problems(content: bytes, by) -> str:
    answer = brought(content, by)
    assert answer.added == 0
    return "\n".join(sentence_on(each) for each in answer.problems)


def packed(files: dict[str, bytes | str]) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize(
    ("files", "reason"),
    [
        ({"meta.xml": b"0" * 30_000_000}, ArchiveRefusal.TOO_DENSE),
        ({"../meta.xml": b"<archive/>"}, ArchiveRefusal.LEAVES_FOLDER),
        ({"/etc/meta.xml": b"<archive/>"}, ArchiveRefusal.LEAVES_FOLDER),
        ({f"{number}.csv": b"" for number in range(5_001)}, ArchiveRefusal.TOO_MANY),
        ({"meta.xml": b"<a/>", "META.XML": b"<b/>"}, ArchiveRefusal.TWICE),
    ],
)
def test_a_trap_is_refused_before_anything_of_it_is_read(by, files, reason):
    with pytest.raises(BadArchive) as refusal:
        brought(packed(files), by)
    assert refusal.value.reason is reason


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04cut short", b"%PDF-1.7 no archive at all"])
def test_what_is_no_archive_is_refused(by, content):
    with pytest.raises(BadArchive) as refusal:
        brought(content, by)
    assert refusal.value.reason is ArchiveRefusal.NO_ARCHIVE


def test_an_archive_inside_the_archive_is_never_opened(by):
    full_plant()
    inner = species_archive()
    Species.objects.all().delete()
    assert "meta.xml: it is missing" in problems(packed({"plants.zip": inner}), by)
    plant("a-b", "Aus bus")
    answer = brought(with_files(species_archive(), {"more.zip": inner}), by)
    assert [sentence_on(each) for each in answer.remarks] == [
        "more.zip: no table names this file, so it was not opened."
    ]


@pytest.mark.parametrize(
    "entity",
    ['<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]><archive>&x;</archive>',
     '<!DOCTYPE a [<!ENTITY x "ha"><!ENTITY y "&x;&x;&x;&x;">]><archive>&y;</archive>',
     "<archive><core>", "\x00"],
)  # fmt: skip
def test_xml_with_entities_or_without_end_is_refused(by, entity):
    found = problems(packed({"meta.xml": entity}), by)
    assert found.startswith("meta.xml: it cannot be read as plain XML")
    assert "root:" not in found


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("taxon.csv", "../taxon.csv", "../taxon.csv: meta.xml names this file, but it is not in the archive."),
        ('encoding="UTF-8" f', 'encoding="klingon" f', "meta.xml: nobody knows the encoding 'klingon'."),
        (
            'fieldsTerminatedBy=","',
            'fieldsTerminatedBy="||"',
            "meta.xml: fieldsTerminatedBy is '||'; one sign is read.",
        ),
        ('<id index="0"/>', '<id index="-1"/>', "meta.xml: index is '-1'."),
        ('<id index="0"/>', '<id index="99999999999"/>', "meta.xml: index is '99999999999'."),
        ('<id index="0"/>', "", "meta.xml: the table taxon.csv has no id."),
        ("dwc/terms/Taxon", "dwc/terms/Event", "meta.xml: the core is http://rs.tdwg.org/dwc/terms/Event; taken are"),
        ('index="21"', 'index="77"', "taxon.csv, row 2: the row has 22 cells, and meta.xml names 78 columns."),
    ],
)
def test_an_impossible_description_is_said_in_a_sentence(by, old, new, sentence):
    full_plant()
    meta = files_of(species_archive())["meta.xml"].decode()
    assert old in meta
    content = with_files(species_archive(), {"meta.xml": meta.replace(old, new, 1).encode()})
    assert sentence in problems(content, by)


def test_a_table_that_is_no_text_or_has_a_quote_too_few_is_said_in_a_sentence(by):
    full_plant()
    content = species_archive()
    assert "taxon.csv: this is no text in utf-8" in problems(with_files(content, {"taxon.csv": b"\xff\xfe\x00"}), by)
    broken = files_of(content)["taxon.csv"] + b'"open'
    assert "taxon.csv: the file cannot be read as a table" in problems(with_files(content, {"taxon.csv": broken}), by)


def test_one_wrong_species_keeps_all_of_them_out(by):
    full_plant()
    plant("a-b", "Aus bus")
    content = with_text(
        species_archive(), "taxon.csv", "Aus bus L.,L.,species,Plantae,", "Aus bus L.,L.,species,Fungi,"
    )
    Species.objects.all().delete()
    assert "taxon.csv, row 2, kingdom: 'Fungi' is not one of: Plantae." in problems(content, by)
    assert Species.objects.count() == 0


def test_a_species_of_which_nobody_says_whether_it_is_eaten_does_not_come_in(by):
    plant("a-b", "Aus bus")
    content = with_text(species_archive(), "taxon.csv", ",edible,", ",,")
    Species.objects.all().delete()
    assert "taxon.csv, row 2, edibility: this must not be empty." in problems(content, by)


def test_a_species_that_is_there_stays_as_the_school_has_it_and_the_difference_is_said(by):
    row = plant("a-b", "Aus bus", edibility="deadly")
    content = with_text(species_archive(), "taxon.csv", ",deadly,", ",edible,")
    answer = brought(content, by)
    row.refresh_from_db()
    assert (row.edibility, answer.added, answer.unchanged) == ("deadly", 0, 1)
    assert "Aus bus is stored already and stays as it is" in sentence_on(answer.remarks[0])


def test_a_name_that_means_another_species_already_is_a_problem(by):
    full_plant()
    content = with_text(species_archive(), "taxon.csv", "rumex-acetosa", "other-key")
    content = with_text(with_text(content, "vernacularname.csv", "rumex-acetosa", "other-key"), "description.csv",
                        "rumex-acetosa", "other-key")  # fmt: skip
    assert "Rumex acetosa is stored under the key 'rumex-acetosa'" in problems(content, by)
    renamed = with_text(content, "taxon.csv", "Rumex acetosa L.", "Rumex alius L.")
    assert "vernacularname.csv, row 2: 'sorrel' already names rumex-acetosa" in problems(renamed, by)


def test_a_picture_that_is_lost_changed_or_no_picture_keeps_the_whole_archive_out(by):
    photographed(specimen(full_plant()))
    content = specimen_archive(with_pictures=True)
    path = next(name for name in files_of(content) if name.startswith("pictures/"))
    Photo.objects.get().renditions.all().delete()
    Photo.objects.all().delete()
    Specimen.objects.all().delete()
    assert f"multimedia.csv, row 2, accessURI: '{path}' is not in the archive." in problems(
        with_files(content, {path: None}), by
    )
    other = with_files(content, {path: picture_bytes(9)})
    assert "is another file than the row says" in problems(other, by)
    text = files_of(content)["multimedia.csv"].decode().rstrip().rsplit(",", 1)[0] + ",\n"
    polyglot = with_files(content, {path: b"GIF89a<script>", "multimedia.csv": text.encode()})
    assert "it cannot be opened as a picture" in problems(polyglot, by)
    assert (Specimen.objects.count(), Photo.objects.count()) == (0, 0)


META = """<archive xmlns="http://rs.tdwg.org/dwc/text/"><core encoding="ISO-8859-1" fieldsTerminatedBy="\\t"
 linesTerminatedBy="\\r\\n" fieldsEnclosedBy="" ignoreHeaderLines="0" rowType="http://rs.tdwg.org/dwc/terms/Occurrence">
 <files><location>data.txt</location></files><id index="0"/>
 <field term="http://rs.tdwg.org/dwc/terms/basisOfRecord" default="HumanObservation"/>
 <field index="1" term="http://rs.tdwg.org/dwc/terms/scientificName"/>
 <field index="2" term="http://rs.tdwg.org/dwc/terms/eventDate"/>
 <field index="3" term="http://rs.tdwg.org/dwc/terms/locality"/>
 <field index="4" term="http://rs.tdwg.org/dwc/terms/lifeStage"/>
 <field index="5" term="http://rs.tdwg.org/dwc/terms/recordedBy"/>
</core></archive>"""


def stranger(*lines: str) -> bytes:
    return packed({"meta.xml": META, "data.txt": "\r\n".join(lines).encode("iso-8859-1")})


def test_an_archive_of_strangers_in_another_shape_is_read_and_its_rest_kept_aside(by):
    full_plant()
    answer = brought(stranger("urn:catalog:1\tRumex acetosa L.\t2025-04-01/2025-04-03\tKärwood\trosette\tA | B"), by)
    assert answer.problems == ()
    row = Specimen.objects.get()
    assert (str(row.species), row.stage, row.settlement, row.use) == (
        "Rumex acetosa", "rosette", Settlement.SINGLE, "teaching",
    )  # fmt: skip
    assert Locality.objects.get().name == "Kärwood"
    aside = {each.term.rsplit("/", 1)[1]: each.value for each in answer.aside}
    assert aside["recordedBy"] == "A | B"
    assert aside["eventDate"] == "2025-04-01/2025-04-03"
    assert any("'urn:catalog:1' goes under" in sentence_on(each) for each in answer.remarks)
    again = brought(stranger("urn:catalog:1\tRumex acetosa L.\t2025-04-01/2025-04-03\tKärwood\trosette\tA | B"), by)
    assert (again.added, again.unchanged) == (0, 1)


def test_strangers_whom_nobody_knows_never_confirm_each_other(by):
    full_plant()
    brought(stranger("first-find\tRumex acetosa\t2025-04-01\tWood\trosette\t",
                     "second-find\tRumex acetosa\t2025-04-01\tWood\trosette\t"), by)  # fmt: skip
    assert {row.settlement for row in Specimen.objects.all()} == {Settlement.SINGLE}
    assert Determination.objects.values("link").distinct().count() == 1


def test_a_stranger_cannot_put_anything_among_what_serves_for_tests(by):
    photographed(specimen(full_plant(), use="assessment"))
    content = specimen_archive(by=by, confirmed=True, is_own=True, with_assessment=True, with_pictures=True)
    Photo.objects.get().renditions.all().delete()
    Photo.objects.all().delete()
    Specimen.objects.all().delete()
    brought(content, by)
    assert Specimen.objects.get().use == ""


def test_what_lacks_a_stage_waits_in_the_tray(by):
    full_plant()
    answer = brought(stranger("first-find\tRumex acetosa\t2025-04-01\tWood\t\t"), by)
    assert Specimen.objects.get().is_in_the_tray
    assert "waits in the tray" in sentence_on(answer.remarks[-1])


def test_a_place_of_the_same_name_that_lies_elsewhere_is_another_place(by):
    full_plant()
    Locality.objects.create(name="Wood", latitude="51.5", longitude="0.1")
    brought(stranger("first-find\tRumex acetosa\t2025-04-01\tWood\trosette\t"), by)
    assert Specimen.objects.get().individual.locality.name == "Wood (no position)"


def test_a_dry_run_says_the_same_and_keeps_nothing(by):
    full_plant()
    content = stranger("first-find\tRumex acetosa\t2025-04-01\tWood\trosette\t")
    tried = brought(content, by, dry_run=True)
    assert (tried.added, Specimen.objects.count(), Locality.objects.count()) == (1, 0, 0)
    assert brought(content, by).added == tried.added
