import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("assessments", "0007_papers_withdrawn"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="PackageRun",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("at", models.DateTimeField(verbose_name="at")),
                (
                    "part",
                    models.CharField(
                        choices=[
                            ("package", "the questions"),
                            ("table", "the table beside them"),
                            ("both", "the questions and the table beside them"),
                        ],
                        max_length=8,
                        verbose_name="what",
                    ),
                ),
                ("with_assessment", models.BooleanField(default=False, verbose_name="with what serves for tests")),
                ("counts", models.JSONField(blank=True, default=dict, verbose_name="how many of what")),
                (
                    "by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                        verbose_name="by",
                    ),
                ),
                (
                    "standard",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="assessments.standard",
                        verbose_name="standard",
                    ),
                ),
            ],
            options={
                "verbose_name": "package of questions",
                "verbose_name_plural": "packages of questions",
                "ordering": ["-at", "-id"],
            },
        ),
    ]
