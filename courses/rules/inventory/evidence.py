"""The inventory of tests, evidence, practice and certificates. Pure."""

from .shape import Activity, Term, holds

LINES = (
    holds(
        "courses.FoundingAssessor", Activity.CERTIFICATES, Term.CERTIFICATE,
        link="person recorded_by", words="reason", fact="recorded_on", none="id",
    ),
    holds(
        "courses.Application", Activity.CERTIFICATES, Term.CERTIFICATE,
        link="person decided_by",
        fact="standard applied_at statement taken_back_at decided_at granted agreed_at renews",
        words="reason", none="id",
    ),
    holds(
        "courses.Certificate", Activity.CERTIFICATES, Term.CERTIFICATE,
        name="facts", contact="credential", link="person decided_by",
        fact="standard application issued_at valid_from valid_until name_is_public pairs_are_public",
        words="exception", none="id number key status_index",
    ),
    holds(
        "courses.HistoricalCertificate", Activity.CERTIFICATES, Term.CERTIFICATE,
        name="facts", contact="credential", link="person decided_by history_user",
        fact="standard application issued_at valid_from valid_until name_is_public pairs_are_public history_date",
        words="exception history_change_reason", none="id number key status_index history_id history_type",
    ),
    holds(
        "courses.CertificateEvent", Activity.CERTIFICATES, Term.CERTIFICATE,
        link="by", words="reason", fact="certificate kind happened_at facts", none="id",
    ),
    holds(
        "courses.DecisionAppeal", Activity.CERTIFICATES, Term.CERTIFICATE,
        link="person decided_by", words="words reasons",
        fact="application event received_at decide_by outcome ended_at exception led_to", none="id key",
    ),
    holds(
        "courses.CertifiedPair", Activity.CERTIFICATES, Term.CODE,
        fact="certificate key dropped_by", none="id",
    ),
    holds(
        "courses.ReviewOpened", Activity.CERTIFICATES, Term.CERTIFICATE,
        fact="certificate told_at closed_at", words="reason", none="id",
    ),
    holds(
        "courses.Conflict", Activity.CERTIFICATES, Term.CERTIFICATE,
        link="decider about", words="reason", fact="declared_on ended_on", none="id",
    ),
    holds(
        "assessments.Standard", Activity.TEACHING, Term.SCHOOL,
        words="purpose reasons", link="made_by",
        none="id key version name follows miss_limit miss_ratio miss_alpha refusal_limit refusal_ratio refusal_alpha "
        "window_weights live_run live_occasions stage_clean period_months valid_months appeal_days "
        "appeal_decided_days leads_walks in_use_since",
    ),
    holds(
        "assessments.StandardPair", Activity.TEACHING, Term.SCHOOL,
        none="id standard pair required_stages edible_stages",
    ),
    holds(
        "assessments.StandardSpecies", Activity.TEACHING, Term.SCHOOL,
        none="id standard species live_required recognise_only reason",
    ),
    holds(
        "assessments.Paper", Activity.TESTS, Term.SCHOOL,
        words="title withdrawn_why", link="set_by withdrawn_by",
        none="id key standard pairs questions kinds minutes opens_at closes_at blueprint seed set_at withdrawn_at",
    ),
    holds(
        "assessments.Seat", Activity.TESTS, Term.CODE,
        link="person", fact="paper opens_at closes_at time_factor", words="adjustment", none="id",
    ),
    holds(
        "assessments.Sitting", Activity.TESTS, Term.CODE,
        link="seat annulled_by",
        fact="opened_at closes_at handed_in_at closed_itself settled_at result_shown_at annulled_at",
        words="annulled_why", none="id key",
    ),
    holds(
        "assessments.Question", Activity.TESTS, Term.CODE,
        link="sitting", fact="position kind specimen beside asks first_shown_at", none="id",
    ),
    holds(
        "assessments.Answer", Activity.TESTS, Term.CODE,
        link="question", fact="decision chosen said named confidence saved_at deliveries", none="id",
    ),
    holds(
        "assessments.Adjustment", Activity.TESTS, Term.CODE,
        link="seat made_by", words="what why", fact="time_factor closes_at made_at", none="id",
    ),
    holds(
        "assessments.SpotTest", Activity.TESTS, Term.SCHOOL,
        words="title note", link="set_by key_checked_by", none="id key locality held_at key_checked_at closed_at",
    ),
    holds(
        "assessments.Station", Activity.TESTS, Term.SCHOOL,
        words="struck_out_why", none="id spot_test number specimen",
    ),
    holds(
        "assessments.IdentityCheck", Activity.TESTS, Term.CODE,
        link="person checked_by", fact="spot_test how checked_at", none="id",
    ),
    holds(
        "assessments.Evidence", Activity.TESTS, Term.CODE,
        link="person recorded_by",
        fact="specimen sitting station kind medium decision said named confidence opened_at position shown_at "
        "recorded_at",
        none="id",
    ),
    holds(
        "assessments.Seen", Activity.TESTS, Term.CODE,
        link="person", fact="specimen seen_at why", none="id",
    ),
    holds(
        "assessments.Voiding", Activity.TESTS, Term.SCHOOL,
        link="voided_by lifted_by", words="reason", none="id specimen voided_at lifted_at",
    ),
    holds(
        "assessments.Appeal", Activity.TESTS, Term.CODE,
        link="evidence", words="words", fact="ground held_for received_at decide_by voiding", none="id key",
    ),
    holds(
        "assessments.AppealStep", Activity.TESTS, Term.CODE,
        link="by", words="words exception", fact="appeal kind at", none="id",
    ),
    holds(
        "assessments.Period", Activity.TESTS, Term.CODE,
        link="person", fact="number started_at ends_at is_renewal", none="id",
    ),
    holds(
        "assessments.Window", Activity.TESTS, Term.CODE,
        link="period opened_by", fact="number opened_at", words="retraining", none="id",
    ),
    holds(
        "assessments.KeptLedger", Activity.TESTS, Term.CODE,
        link="person", fact="standard side species figures", none="id stamp",
    ),
    holds(
        "assessments.KeptStanding", Activity.TESTS, Term.CODE,
        link="person", fact="standard passed pairs pairs_passed gaps", none="id stamp",
    ),
    holds(
        "assessments.PackageRun", Activity.TESTS, Term.CODE,
        link="by", fact="at", none="id part standard with_assessment counts",
    ),
    holds(
        "assessments.PracticeState", Activity.PRACTICE, Term.ERASED,
        link="person", fact="pair half_life last_at", none="id",
    ),
    holds(
        "assessments.PracticeRound", Activity.PRACTICE, Term.ERASED,
        link="person", fact="began_at", none="id key",
    ),
    holds(
        "assessments.PracticeTurn", Activity.PRACTICE, Term.ERASED,
        link="round", fact="position pair photo said outcome answered_at", none="id",
    ),
)  # fmt: skip
