from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("store", "0001_the_store"),
    ]

    operations = [
        migrations.AddField(
            model_name="vessel",
            name="kind",
            field=models.CharField(blank=True, default="", max_length=8),
        ),
        migrations.AddField(
            model_name="vessel",
            name="empty_g",
            field=models.PositiveIntegerField(help_text="what it weighs empty [g]", null=True),
        ),
        migrations.AlterField(
            model_name="vessel",
            name="grams",
            field=models.PositiveIntegerField(help_text="what it holds when full; 0: not known [g]"),
        ),
    ]
