from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("rounds", "0003_free_chores"),
    ]

    operations = [
        migrations.AddField(
            model_name="chore",
            name="photo",
            field=models.CharField(
                blank=True, default="", help_text="SHA-256: how it is done", max_length=64
            ),
        ),
    ]
