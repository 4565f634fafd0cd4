"""The checklist for archives, line by line: DW-1 to DW-9. The round trip and privacy have modules of their own."""

import csv
import tempfile
from io import StringIO
from pathlib import Path

import pytest
from defusedxml.ElementTree import fromstring
from dwca.read import DwCAReader
from lxml import etree

from species.models import ArchiveRun, Photo, Species, Specimen
from species.queries.archive_sentences import sentence_on
from species.rules.darwin import layouts
from species.rules.darwin.terms import DWC
from tests.species.darwin.archives import (
    brought,
    files_of,
    full_plant,
    photographed,
    rows_of,
    specimen,
    specimen_archive,
    user,
    with_files,
    with_text,
)
from tests.species.darwin.standards import standards_file

pytestmark = pytest.mark.django_db
TEXT = "{http://rs.tdwg.org/dwc/text/}"


def sentences(content: bytes) -> str:
    answer = brought(content, user(f"{len(content)}-{Specimen.objects.count()}@example.org"))
    assert answer.added == 0 or not answer.problems
    return "\n".join(sentence_on(each) for each in answer.problems)


def test_dw_1_an_archive_is_a_zip_of_meta_eml_one_core_and_extensions(both):
    tables = [{"taxon.csv", "vernacularname.csv", "description.csv"},
              {"occurrence.csv", "identification.csv", "multimedia.csv", "region.csv"}]  # fmt: skip
    for content, expected in zip(both, tables, strict=True):
        pictures = {name for name in files_of(content) if name.startswith("pictures/")}
        assert set(files_of(content)) - pictures == {"meta.xml", "eml.xml", *expected}
    eml = fromstring(files_of(both[0])["eml.xml"])
    assert eml.findtext("dataset/title") == "Plants taught by A school"
    assert eml.findtext("dataset/pubDate") == "2026-06-01"


def test_dw_1_the_same_school_gives_the_same_bytes(specimens):
    assert specimens == specimen_archive(with_pictures=True)


def test_dw_2_meta_is_valid_against_the_published_schema(both):
    schema = etree.XMLSchema(etree.parse(standards_file("dwc/tdwg_dwc_text.xsd"), etree.XMLParser(no_network=True)))
    for content in both:
        schema.assertValid(etree.fromstring(files_of(content)["meta.xml"]))


def test_dw_2_there_is_one_core_with_an_id_and_every_extension_points_to_it(both):
    for content in both:
        meta = fromstring(files_of(content)["meta.xml"])
        assert [each.find(f"{TEXT}id").get("index") for each in meta.findall(f"{TEXT}core")] == ["0"]
        assert {each.find(f"{TEXT}coreid").get("index") for each in meta.findall(f"{TEXT}extension")} == {"0"}


def test_dw_3_rows_are_of_the_named_types(both):
    types = [each.get("rowType") for content in both for each in fromstring(files_of(content)["meta.xml"])]
    assert types == [
        "http://rs.tdwg.org/dwc/terms/Taxon",
        "http://rs.gbif.org/terms/1.0/VernacularName",
        "http://rs.gbif.org/terms/1.0/Description",
        "http://rs.tdwg.org/dwc/terms/Occurrence",
        "http://rs.tdwg.org/dwc/terms/Identification",
        "http://rs.tdwg.org/ac/terms/Multimedia",
        "http://rs.tdwg.org/ac/terms/RegionOfInterest",
    ]


def test_dw_3_every_term_is_one_that_its_vocabulary_has():
    known = set()
    for file in ("dwc/terms.csv", "dwc/audiovisual-terms.csv"):
        known |= {row["iri"] for row in csv.DictReader(StringIO(standards_file(file).read_text()))}
    columns = {each.term for layout in (*layouts.SPECIES_ARCHIVE, *layouts.SPECIMEN_ARCHIVE) for each in layout.columns}
    listed = {each for each in columns if "rs.tdwg.org" in each or "adobe.com" in each}
    assert len(listed) > 50
    assert listed <= known


def test_dw_4_how_a_file_is_written_is_said_in_full(both):
    for content in both:
        for table in fromstring(files_of(content)["meta.xml"]):
            assert {name: table.get(name) for name in dict(table.items()) if name != "rowType"} == {
                "encoding": "UTF-8",
                "fieldsTerminatedBy": ",",
                "linesTerminatedBy": "\\n",
                "fieldsEnclosedBy": '"',
                "ignoreHeaderLines": "1",
            }


def test_dw_5_ids_are_unique_and_every_row_finds_its_core_row(both):
    for content, core, key in ((both[0], "taxon.csv", "taxonID"), (both[1], "occurrence.csv", "occurrenceID")):
        ids = [row[key] for row in rows_of(content, core)]
        assert len(ids) == len(set(ids)) > 0
        for file in files_of(content):
            if file.endswith(".csv"):
                rows = rows_of(content, file)
                assert {row[key] for row in rows} <= set(ids), file
                assert not {"NULL", "\\N", "None"} & {cell for row in rows for cell in row.values()}


def test_dw_5_a_find_always_has_id_basis_name_and_day_even_where_nobody_named_it():
    specimen(full_plant())
    row = rows_of(specimen_archive(), "occurrence.csv")[0]
    asked = ("occurrenceID", "basisOfRecord", "scientificName", "eventDate")
    assert [row[each] for each in asked[1:]] == ["HumanObservation", "Plantae", "2026-04-01"]
    assert all(row[each] for each in asked)


def test_dw_5_an_id_twice_a_lost_row_and_a_word_for_nothing_are_problems(specimens):
    key = Specimen.objects.get().key
    text = files_of(specimens)["identification.csv"].decode()
    lost = with_files(specimens, {"identification.csv": text.replace(f"{key},", "nobodys-plant,").encode()})
    assert "identification.csv, row 2, coreid: no row of the core has the id 'nobodys-plant'" in sentences(lost)
    finds = files_of(specimens)["occurrence.csv"]
    twice = with_files(specimens, {"occurrence.csv": finds + finds.split(b"\n", 1)[1]})
    assert f"occurrence.csv, row 3, id: '{key}' stands here a second time" in sentences(twice)
    assert "'NULL' stands for nothing" in sentences(with_text(specimens, "occurrence.csv", ",present,", ",NULL,"))


def test_dw_6_pictures_have_identifier_type_language_and_rights(specimens):
    row = rows_of(specimens, "multimedia.csv")[0]
    assert row["identifier"] == Photo.objects.get().key
    assert [row[each] for each in ("type", "subtype", "metadataLanguageLiteral")] == ["StillImage", "Photograph", "eng"]
    assert row["rights"] == "© Ann Lens. CC BY 4.0"
    assert row["WebStatement"] == "https://creativecommons.org/licenses/by/4.0/"


@pytest.mark.parametrize("credit", [{"licence": ""}, {"licence": "for this school alone"},
                                    {"rights_holder": "", "photographer": ""}])  # fmt: skip
def test_dw_6_a_picture_without_rights_or_kept_for_the_school_does_not_go_out(credit):
    photographed(specimen(full_plant()), **credit)
    content = specimen_archive(with_pictures=True)
    assert rows_of(content, "multimedia.csv") == []
    assert not [name for name in files_of(content) if name.startswith("pictures/")]


def test_dw_6_a_picture_without_rights_that_comes_in_is_a_named_problem(specimens):
    broken = with_text(specimens, "multimedia.csv", "© Ann Lens. CC BY 4.0", "")
    assert "multimedia.csv, row 2, rights: this must not be empty." in sentences(broken)


def test_dw_8_a_stranger_reads_the_archive_back(specimens):
    with tempfile.NamedTemporaryFile(suffix=".zip") as file:
        file.write(specimens)
        file.flush()
        with DwCAReader(file.name) as archive:
            (core,) = list(archive)
            opinions = [each for each in core.extensions if each.rowtype.endswith("Identification")]
            assert archive.descriptor.core.type == DWC + "Occurrence"
            assert core.data[DWC + "lifeStage"] == "leafy stem"
            assert opinions[0].data[DWC + "verbatimIdentification"] == 'sorrel, "sour"\nor dock'
            assert len(core.extensions) == 4
            assert (Path(archive.absolute_temporary_path("pictures"))).is_dir()


def test_dw_8_plain_csv_reads_what_stands_in_the_database(both):
    row = next(each for each in rows_of(both[0], "description.csv") if each["type"] == "habitat")
    assert row["description"] == Species.objects.get().habitat


def test_dw_9_an_unknown_term_is_kept_aside_and_reported(specimens):
    meta = files_of(specimens)["meta.xml"].decode()
    field = f'<field term="{DWC}vitality" default="alive"/>'
    spot = '<field index="1" term="http://rs.tdwg.org/dwc/terms/basisOfRecord"/>'
    content = with_files(specimens, {"meta.xml": meta.replace(spot, spot + field).encode()})
    content = with_text(content, "occurrence.csv", Specimen.objects.get().key, "another-plants-key")
    for file in ("identification.csv", "region.csv", "multimedia.csv"):
        content = with_files(content, {file: None})
    meta = files_of(content)["meta.xml"].decode()
    content = with_files(content, {"meta.xml": (meta.split("  <extension")[0] + "</archive>").encode()})
    answer = brought(content, user("c@example.org"))
    assert answer.problems == ()
    assert [(each.term, each.value) for each in answer.aside if "vitality" in each.term] == [
        (DWC + "vitality", "alive")
    ]
    assert any("vitality: 1 values have no place here" in sentence_on(each) for each in answer.remarks)
    assert {"file": "occurrence.csv", "row": 2, "core": "another-plants-key", "term": DWC + "vitality",
            "value": "alive"} in ArchiveRun.objects.filter(direction="in").get().aside  # fmt: skip


@pytest.mark.parametrize(
    ("file", "old", "new", "sentence"),
    [
        ("occurrence.csv", "leafy stem", "adult", "row 2, lifeStage: 'adult' is not one of: seedling, rosette"),
        ("occurrence.csv", "HumanObservation", "Sighting", "row 2, basisOfRecord: 'Sighting' is not one of"),
        ("multimedia.csv", ",leaf,leaf,", ",root,leaf,", "row 2, subjectPart: 'root' is not one of"),
        ("multimedia.csv", "StillImage", "Sound", "row 2, type: 'Sound' is not one of"),
        ("multimedia.csv", "Photograph", "Drawing", "row 2, subtype: this is a drawing"),
        ("occurrence.csv", "2026-04-01", "2026-13-01", "row 2, eventDate: '2026-13-01' is no date"),
        ("occurrence.csv", "2026-04-01", "2027-04-01", "row 2, eventDate: 2027-04-01 lies ahead"),
        ("identification.csv", "Rumex acetosa L.", "Rumex acetossa L.", "called 'Rumex acetossa L.'; nearest: Rumex"),
        ("region.csv", "margin", "margins", "row 2, character: the character table has no 'margins toothed'"),
        ("region.csv", "0.3", "0.95", "row 2: this is no region on a picture"),
    ],
)
def test_dw_9_an_unknown_value_is_a_problem_with_its_row_and_nothing_is_kept(specimens, file, old, new, sentence):
    key = Specimen.objects.get().key
    content = with_text(specimens, file, old, new)
    for each in ("occurrence.csv", "identification.csv", "multimedia.csv", "region.csv"):
        content = with_text(content, each, key, f"{'y' if key[0] == 'x' else 'x'}{key[1:]}")
    Photo.objects.all().update(original_sha256="0")  # so that the picture could come in again
    found = sentences(content)
    assert sentence in found
    assert found.startswith(file)
    assert Specimen.objects.count() == 1
