"""The inventory of plants: what is taught of them, and the specimens with whoever found, photographed or named them.

Pure.
"""

from .shape import Activity, Term, holds

LINES = (
    holds(
        "species.Species", Activity.TEACHING, Term.SCHOOL,
        none="id key name author family edibility aggregate life height_low_cm height_high_cm habitat legal note "
        "status moisture squares_britain squares_ireland leafless_stages place_is_blurred hazard_toxin hazard_parts "
        "hazard_signs hazard_onset hazard_severity hazard_uncertain sources search_text",
    ),
    holds("species.CommonName", Activity.TEACHING, Term.SCHOOL, none="id species name language order"),
    holds("species.Synonym", Activity.TEACHING, Term.SCHOOL, none="id species name is_aggregate"),
    holds("species.PartUsed", Activity.TEACHING, Term.SCHOOL, none="id species part months stages note order"),
    holds("species.Showing", Activity.TEACHING, Term.SCHOOL, none="id species stage months"),
    holds(
        "species.Character", Activity.TEACHING, Term.SCHOOL,
        none="id key name organ sense stages reliability why needs_digging order",
    ),
    holds("species.CharacterState", Activity.TEACHING, Term.SCHOOL, none="id character key text order"),
    holds("species.StateRecord", Activity.TEACHING, Term.SCHOOL, none="id species state frequency stages"),
    holds(
        "species.Pair", Activity.TEACHING, Term.SCHOOL,
        none="id key gathered mistaken danger core part what_goes_wrong where_together third_species rule "
        "stage_combinations sources order",
    ),
    holds(
        "species.PairCharacter", Activity.TEACHING, Term.SCHOOL,
        none="id pair character label gathered_text mistaken_text stages trust one_way needs_digging note order",
    ),
    holds("species.Module", Activity.TEACHING, Term.SCHOOL, words="text", none="id key title order species pairs"),
    holds("species.ModuleSpecies", Activity.TEACHING, Term.SCHOOL, none="id module species order"),
    holds("species.ModulePair", Activity.TEACHING, Term.SCHOOL, none="id module pair order"),
    holds(
        "species.TableEdit", Activity.TEACHING, Term.CODE,
        link="by", fact="at", words="why", none="id species character number before after from_tables",
    ),
    holds(
        "species.Locality", Activity.BANK, Term.SCHOOL,
        words="name habitat", none="id latitude longitude blurred_to_km days_late",
    ),
    holds("species.Individual", Activity.BANK, Term.SCHOOL, words="label", none="id locality"),
    holds(
        "species.Specimen", Activity.BANK, Term.CODE,
        link="added_by", words="retired_why note", fact="added_at",
        none="id key individual seen_on stage form use drawing_seed retired_on species settlement",
    ),
    holds(
        "species.Photo", Activity.BANK, Term.CODE,
        link="added_by", words="photographer rights_holder caption alt_blind alt_full",
        fact="taken_at latitude longitude camera added_at",
        none="id key specimen original_sha256 likeness width height part licence placed_by_hand order",
    ),
    holds("species.PhotoRendition", Activity.BANK, Term.SCHOOL, none="id photo width height media_type file"),
    holds(
        "species.Region", Activity.BANK, Term.CODE,
        link="drawn_by", fact="drawn_at", none="id photo character state x y width height radius",
    ),
    holds(
        "species.DeterminerLink", Activity.BANK, Term.CODE,
        name="name", contact="email", link="invited_by", sign_in="key",
        fact="specimens invited_at closes_on withdrawn_on", none="id",
    ),
    holds(
        "species.Determination", Activity.BANK, Term.CODE,
        link="determiner link brought_by", fact="specimen species said determined_at", words="characters", none="id",
    ),
    holds(
        "species.SecondLook", Activity.BANK, Term.CODE,
        link="asked_by", fact="asked_at", words="why", none="id specimen answer",
    ),
    holds(
        "species.ArchiveRun", Activity.BANK, Term.CODE,
        link="by", fact="at", words="named aside", none="id direction kind is_own with_pictures with_assessment counts",
    ),
)  # fmt: skip
