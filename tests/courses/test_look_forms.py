"""The form pack: every kind of field and layout object; help and errors can be heard and followed."""

import pytest
from crispy_forms.helper import FormHelper
from crispy_forms.layout import (
    HTML,
    Button,
    ButtonHolder,
    Column,
    Div,
    Field,
    Fieldset,
    Hidden,
    Layout,
    Reset,
    Row,
    Submit,
)
from django import forms

from tests.courses.drawing import drawn, piece
from tests.courses.markup import faults, found

DECISIONS = [("gather", "Gather it"), ("refuse", "No, I would not"), ("leave", "Leave it: I cannot tell")]


class SiteForm(forms.Form):
    """One field of each kind that the school uses."""

    name = forms.CharField(label="Name", help_text="As people here call it.")
    email = forms.EmailField(label="E-mail", required=False)
    day = forms.DateField(label="Day", widget=forms.SelectDateWidget)
    starts = forms.SplitDateTimeField(label="Starts", required=False)
    size = forms.IntegerField(label="Group size", help_text="At most 16.")
    hazards = forms.CharField(label="Hazards", widget=forms.Textarea)
    kind = forms.ChoiceField(label="Kind", choices=[("a", "Indoors"), ("b", "Walk")], widget=forms.RadioSelect)
    modules = forms.MultipleChoiceField(
        label="Modules", choices=[("c", "Carrots")], widget=forms.CheckboxSelectMultiple
    )
    leader = forms.ChoiceField(label="Leader", choices=[("", "Choose"), ("ada", "Ada")], help_text="Who is ready.")
    photo = forms.FileField(label="Photograph", widget=forms.ClearableFileInput, required=False)
    agreed = forms.BooleanField(label="The landowner agrees", help_text="In writing.")
    key = forms.CharField(widget=forms.HiddenInput)

    def clean(self):
        raise forms.ValidationError("The walk overlaps another one. Choose another day.")


class PlaceForm(forms.Form):
    """Lists of which Django writes the empty line as a row of dashes."""

    stage = forms.ChoiceField(label="Stage", choices=[("", "---------"), ("a", "Leaf")], required=False)
    species = forms.ChoiceField(label="Plant", choices=[("", "---------"), ("b", "Nettle")])


class QuestionForm(forms.Form):
    decision = forms.ChoiceField(
        label="Would you gather it?", choices=DECISIONS, widget=forms.RadioSelect, help_text="Whatever it is."
    )


def whole(form: forms.Form) -> str:
    return drawn("{% load crispy_forms_tags %}{% crispy form %}", form=form, csrf_token="token")


@pytest.mark.parametrize("form", [SiteForm(), SiteForm({})], ids=["fresh", "with errors"])
def test_every_kind_of_field_is_sound(form):
    assert faults(whole(form)) == []


def test_every_field_has_a_name_that_can_be_heard():
    html = whole(SiteForm())
    labelled = {each.attributes["for"] for each in found(html, "label")}
    controls = [each for each in found(html) if each.tag in ("input", "select", "textarea")]
    shown = [each for each in controls if each.attributes.get("type") != "hidden"]
    grouped = {each.attributes["id"] for each in shown if "aria-labelledby" in each.attributes}
    inside_groups = {"id_day_month", "id_day_day", "id_day_year", "id_starts_0", "id_starts_1"}
    assert {each.attributes["id"] for each in shown} <= labelled | grouped | inside_groups
    assert "Kind" in [each.text for each in found(html, "legend")]


def test_radio_buttons_and_boxes_stand_in_a_fieldset_with_a_legend():
    groups = {each.attributes["id"]: each for each in found(whole(SiteForm({})), "fieldset")}
    assert {"id_kind_group", "id_modules_group", "id_day_group"} <= set(groups)
    assert groups["id_kind_group"].attributes["aria-describedby"] == "id_kind_error"


def test_what_is_wrong_stands_beside_the_field_and_is_named_by_the_control():
    html = whole(SiteForm({}))
    (size,) = [each for each in found(html, "input") if each.attributes.get("id") == "id_size"]
    (wrong,) = [each for each in found(html, "div", "field-errors") if each.attributes["id"] == "id_size_error"]
    assert size.attributes["aria-describedby"] == "id_size_helptext id_size_error"
    assert size.attributes["aria-invalid"] == "true"
    assert wrong.text == "To mend: This field is required."


def test_the_summary_stands_first_takes_the_focus_and_leads_to_each_field():
    html = whole(SiteForm({}))
    (summary,) = found(html, "div", "error-summary")
    targets = [each.attributes["href"] for each in found(html, "a")]
    assert {"autofocus", "data-takes-focus"} <= set(summary.attributes)
    assert "The walk overlaps another one." in summary.text
    assert html.index("error-summary") < html.index('id="id_name"')
    assert {"#id_name", "#id_kind_0", "#id_agreed"} <= set(targets)
    assert {"#id_day_day", "#id_day_month", "#id_day_year"} & set(targets)  # the first depends on the language


def test_the_links_of_the_summary_lead_somewhere():
    html = whole(SiteForm({}))
    ids = {f"#{each.attributes.get('id')}" for each in found(html)}
    assert {each.attributes["href"] for each in found(html, "a")} <= ids


def test_what_was_typed_stands_there_again():
    html = whole(SiteForm({"name": "Alder <Holt>", "size": "many", "hazards": "a ford"}))
    assert 'value="Alder &lt;Holt&gt;"' in html
    assert 'value="many"' in html
    assert "a ford</textarea>" in html


def test_a_fresh_form_shows_no_errors_and_says_what_is_optional():
    html = whole(SiteForm())
    assert found(html, "div", "error-summary") == []
    assert [each.text for each in found(html, "label") if "optional" in each.text] == [
        "E-mail (optional)",
        "Photograph (optional)",
    ]


def test_a_form_with_a_file_can_send_it_and_leaves_checking_to_the_server():
    (form,) = found(whole(SiteForm()), "form")
    assert form.attributes["enctype"] == "multipart/form-data"
    assert "novalidate" in form.attributes


def laid_out(form: forms.Form) -> str:
    helper = FormHelper()
    helper.layout = Layout(
        Fieldset(
            "Where and when",
            Row(Column("name"), Column(Field("email", css_class="wide"))),
            "day",
            css_id="where",
        ),
        Div("size", "hazards", css_class="two"),
        Div(HTML("<p>Ask first.</p>"), template="flora/layout/notes.html"),
        "kind",
        "modules",
        "leader",
        "photo",
        "agreed",
        "key",
        "starts",
        Hidden("next", "/"),
        ButtonHolder(
            Submit("save", "Keep it"),
            Button("look", "Look first", css_class="look"),
            Reset("again", "Begin again"),
        ),
    )
    helper.add_input(Submit("draft", "Keep as a draft"))
    tag = "{% load crispy_forms_tags %}{% crispy form helper %}"
    return drawn(tag, form=form, helper=helper, csrf_token="token")


@pytest.mark.parametrize("form", [SiteForm(), SiteForm({})], ids=["fresh", "with errors"])
def test_every_layout_object_is_sound(form):
    html = laid_out(form)
    assert faults(html) == []
    assert found(html, "fieldset", "field-set")[0].attributes["id"] == "where"
    assert found(html, "div", "field-row")
    assert found(html, "div", "note")[0].text == "Ask first."


def test_one_button_sends_and_the_others_are_quiet():
    buttons = {each.text: each.classes for each in found(laid_out(SiteForm()), "button")}
    assert buttons["Keep it"] == {"button"}
    assert buttons["Look first"] == {"button", "button-quiet", "look"}
    assert buttons["Begin again"] == {"button", "button-quiet"}


def test_a_set_of_forms_is_sound_and_keeps_count():
    formset = forms.formset_factory(QuestionForm, extra=2)
    for html in (
        drawn("{% load crispy_forms_tags %}{% crispy set %}", set=formset()),
        drawn("{% load crispy_forms_tags %}{{ set|crispy }}", set=formset()),
    ):
        assert faults(html) == []
        assert 'name="form-TOTAL_FORMS" value="2"' in html
        assert len(found(html, "div", "form-of-set")) == 2


def test_a_set_of_forms_says_what_is_wrong_with_it_as_a_whole():
    formset = forms.formset_factory(QuestionForm, min_num=1, validate_min=True)
    html = drawn(
        "{% load crispy_forms_tags %}{% crispy set %}",
        set=formset({"form-TOTAL_FORMS": "0", "form-INITIAL_FORMS": "0"}),
    )
    assert "Please submit at least 1 form." in found(html, "div", "error-summary")[0].text


@pytest.mark.parametrize("name", ["answer_choices", "confidence_choices"])
@pytest.mark.parametrize("form", [QuestionForm(), QuestionForm({})], ids=["fresh", "with errors"])
def test_the_answers_are_one_group_of_equal_choices(name, form):
    html = piece(name, "field=field", field=form["decision"])
    choices = found(html, "label", "choice")
    assert faults(html) == []
    assert [each.text for each in choices] == [words for _value, words in DECISIONS]
    assert len({tuple(sorted(each.classes)) for each in choices}) == 1
    assert found(html, "legend")[0].text == "Would you gather it?"


def test_no_answer_is_chosen_beforehand():
    html = piece("answer_choices", "field=field", field=QuestionForm()["decision"])
    assert not any("checked" in each.attributes for each in found(html, "input"))


def test_the_empty_line_of_a_list_says_in_words_what_it_means():
    options = {field: found(str(PlaceForm()[field]), "option") for field in ("stage", "species")}
    assert [each.text for each in options["stage"]] == ["none", "Leaf"]
    assert [each.text for each in options["species"]] == ["choose one", "Nettle"]
    assert options["stage"][0].attributes["value"] == ""


def test_what_was_chosen_stays_chosen_and_what_people_named_is_escaped():
    class Named(forms.Form):
        place = forms.ChoiceField(choices=[("1", "<b>Mill</b>"), ("Woods", [("2", "Ash & oak")])], initial="2")

    html = str(Named()["place"])
    assert "&lt;b&gt;Mill" in html
    assert [each.attributes["value"] for each in found(html, "option") if "selected" in each.attributes] == ["2"]
    assert found(html, "optgroup")[0].attributes["label"] == "Woods"
