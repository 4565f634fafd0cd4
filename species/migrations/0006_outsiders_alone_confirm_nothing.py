"""What outsiders alone had confirmed waits for somebody of the school."""

from django.db import migrations
from django.db.models import Exists, OuterRef


def await_the_school(apps, schema_editor):
    """A confirmed name that no account gave, or agreed to, is a single one again."""
    said = apps.get_model("species", "Determination").objects.filter(specimen=OuterRef("pk"))
    confirmed = apps.get_model("species", "Specimen").objects.filter(settlement="confirmed")
    of_outsiders = confirmed.filter(Exists(said)).exclude(Exists(said.filter(determiner__isnull=False)))
    of_outsiders.update(settlement="single")


class Migration(migrations.Migration):
    dependencies = [("species", "0005_archive_opinions")]

    operations = [migrations.RunPython(await_the_school, migrations.RunPython.noop)]
