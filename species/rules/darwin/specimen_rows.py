"""Specimens to the rows of their archive."""

from collections.abc import Iterable

from species.rules.darwin.facts import OpinionFacts, PictureFacts, PlaceFacts, RegionFacts, SpecimenFacts
from species.rules.darwin.layouts import IDENTIFICATIONS, MEDIA, OCCURRENCES, REGIONS
from species.rules.darwin.names import rank_word
from species.rules.darwin.places import in_degrees
from species.rules.darwin.rows import Row, Table
from species.rules.darwin.taxon_rows import name_cells
from species.rules.darwin.words import (
    KINGDOM,
    LIFE_STAGES,
    METADATA_LANGUAGE,
    REPRODUCTIVE_CONDITIONS,
    UNNAMED_PLANT,
    VERIFICATION,
    licence_address,
    part_of_subject,
)
from species.rules.lists import joined_list
from species.rules.scientific import parsed_name

PLACE_DECIMALS = 5
BLURRED = "Position given as the middle of a square of {km} km."
WITHHELD = "The school holds the exact position."
NAME_WITHHELD = "The school holds the exact position and the name of the place."


def specimen_tables(specimens: Iterable[SpecimenFacts]) -> tuple[Table, ...]:
    """The tables of an archive of specimens: finds, determinations, pictures, regions on them."""
    finds, opinions, media, regions = Table(OCCURRENCES), Table(IDENTIFICATIONS), Table(MEDIA), Table(REGIONS)
    for each in specimens:
        finds.rows.append(_find(each))
        opinions.rows.extend(_opinion(each, number, opinion) for number, opinion in enumerate(each.opinions, start=1))
        for picture in each.pictures:
            media.rows.append(_picture(each, picture))
            regions.rows.extend(_region(each, picture, region) for region in picture.regions)
    return finds, opinions, media, regions


def _find(each: SpecimenFacts) -> Row:
    named = each.species
    return {
        "occurrenceID": each.key,
        "basisOfRecord": "HumanObservation",
        "occurrenceStatus": "present",
        "organismID": each.plant,
        "recordedBy": joined_list(
            dict.fromkeys(picture.photographer for picture in each.pictures if picture.photographer)
        ),
        "eventDate": each.seen_on.isoformat(),
        **(name_cells(named) if named else {"scientificName": UNNAMED_PLANT}),
        "taxonRank": rank_word(named.name) if named else "kingdom",
        "kingdom": KINGDOM,
        "family": named.family if named else "",
        "lifeStage": LIFE_STAGES.get(each.stage, "") if each.stage else "",
        "reproductiveCondition": REPRODUCTIVE_CONDITIONS.get(each.stage, "") if each.stage else "",
        **_place(each.place),
        "identificationVerificationStatus": VERIFICATION[each.settlement] if each.settlement else "",
        "occurrenceRemarks": each.note,
        "form": each.form,
        "use": each.use.value if each.use else "",
        "organismLabel": each.plant_label,
    }


def _place(place: PlaceFacts) -> Row:
    row = {"locality": "" if place.is_withheld else place.name, "habitat": place.habitat}
    if place.days_late is not None:
        row["daysLate"] = str(place.days_late)
    if place.latitude is not None and place.longitude is not None:
        row |= {
            "decimalLatitude": in_degrees(place.latitude, PLACE_DECIMALS),
            "decimalLongitude": in_degrees(place.longitude, PLACE_DECIMALS),
            "geodeticDatum": "EPSG:4326",
            "coordinateUncertaintyInMeters": str(place.within_m) if place.within_m else "",
        }
        if place.km:
            row |= {"dataGeneralizations": BLURRED.format(km=place.km), "blurredToKm": str(place.km)}
    if place.is_withheld or place.km:
        row["informationWithheld"] = NAME_WITHHELD if place.is_withheld else WITHHELD
    return row


def _opinion(of: SpecimenFacts, number: int, each: OpinionFacts) -> Row:
    return {
        "occurrenceID": of.key,
        "identificationID": f"{of.key}:{number}",
        "identifiedBy": joined_list([each.by] if each.by else []),
        "identifiedByID": each.by_id,
        "dateIdentified": each.at.isoformat(),
        **(name_cells(each.species) if each.species else {}),
        "identificationQualifier": parsed_name(each.said[:1].upper() + each.said[1:]).qualifier,
        "verbatimIdentification": each.said,
        "identificationRemarks": each.characters,
    }


def _picture(of: SpecimenFacts, each: PictureFacts) -> Row:
    row = {
        "occurrenceID": of.key,
        "identifier": each.id,
        "type": "StillImage",
        "subtype": "Photograph",
        "metadataLanguageLiteral": METADATA_LANGUAGE,
        "rights": f"© {each.owner}. {each.licence}",
        "WebStatement": licence_address(each.licence),
        "UsageTerms": each.licence,
        "Owner": each.owner,
        "creator": each.photographer,
        "Credit": each.photographer or each.owner,
        "caption": each.caption,
        "subjectPart": part_of_subject(each.part),
        "subjectPartLiteral": each.part,
        "description": each.alt_full,
        "blindDescription": each.alt_blind,
        "CreateDate": each.taken_at.isoformat() if each.taken_at else "",
        "hasROI": joined_list(_region_id(each, region) for region in each.regions),
    }
    if each.path:
        row |= {
            "accessURI": each.path,
            "format": each.media_type,
            "variant": "Best Quality",
            "hashFunction": "SHA-256",
            "hashValue": each.sha256,
        }
    return row


def _region_id(of: PictureFacts, region: RegionFacts) -> str:
    return f"{of.id}:{of.regions.index(region) + 1}"


def _region(of: SpecimenFacts, on: PictureFacts, each: RegionFacts) -> Row:
    row = {
        "occurrenceID": of.key,
        "identifier": _region_id(on, each),
        "isROIOf": on.id,
        "xFrac": in_degrees(each.frame.x, 4),
        "yFrac": in_degrees(each.frame.y, 4),
        "character": each.character,
        "state": each.state,
    }
    if each.frame.radius > 0:
        return row | {"radius": in_degrees(each.frame.radius, 4)}
    return row | {"widthFrac": in_degrees(each.frame.width, 4), "heightFrac": in_degrees(each.frame.height, 4)}
