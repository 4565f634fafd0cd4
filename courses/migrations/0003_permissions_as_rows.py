"""What stood on a site about its permission becomes a permission of its own."""

from django.db import migrations
from django.utils import timezone


def carry_over(apps, schema_editor):
    Site = apps.get_model("courses", "Site")
    SitePermission = apps.get_model("courses", "SitePermission")
    today = timezone.localdate()
    for site in Site.objects.exclude(permission=""):
        until = site.permission_until
        SitePermission.objects.create(
            site=site,
            given_by=site.permission.strip().splitlines()[0][:120],
            conditions=site.permission,
            valid_from=min(until, today) if until else today,
            valid_until=until,
        )


def carry_back(apps, schema_editor):
    SitePermission = apps.get_model("courses", "SitePermission")
    for row in SitePermission.objects.filter(ended_on__isnull=True).order_by("site", "valid_from"):
        site = row.site
        site.permission = row.conditions or row.given_by
        site.permission_until = row.valid_until
        site.save(update_fields=["permission", "permission_until"])


class Migration(migrations.Migration):
    dependencies = [
        ("courses", "0002_people_sites_and_walks"),
    ]

    operations = [
        migrations.RunPython(carry_over, carry_back),
        migrations.RemoveField(
            model_name="site",
            name="permission",
        ),
        migrations.RemoveField(
            model_name="site",
            name="permission_until",
        ),
    ]
