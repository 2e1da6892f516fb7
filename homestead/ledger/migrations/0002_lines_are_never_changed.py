"""Triggers: a line is never changed, and deleted only while its household stands in `ledger_leaving`."""

from django.db import migrations

SQLITE = (
    """
    CREATE TRIGGER ledger_line_no_update BEFORE UPDATE ON ledger_line
    BEGIN SELECT RAISE(ABORT, 'ledger lines are never changed'); END
    """,
    """
    CREATE TRIGGER ledger_line_no_delete BEFORE DELETE ON ledger_line
    WHEN NOT EXISTS (SELECT 1 FROM ledger_leaving WHERE household = OLD.household_id)
    BEGIN SELECT RAISE(ABORT, 'ledger lines are never deleted'); END
    """,
    # INSERT OR REPLACE deletes without firing a trigger for it
    """
    CREATE TRIGGER ledger_line_no_replace BEFORE INSERT ON ledger_line
    WHEN EXISTS (SELECT 1 FROM ledger_line WHERE id = NEW.id)
      OR EXISTS (SELECT 1 FROM ledger_line WHERE household_id = NEW.household_id AND uuid = NEW.uuid)
      OR EXISTS (SELECT 1 FROM ledger_line WHERE household_id = NEW.household_id AND seq = NEW.seq)
    BEGIN SELECT RAISE(ABORT, 'ledger lines are never replaced'); END
    """,
)
POSTGRESQL = (
    """
    CREATE FUNCTION ledger_line_guard() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF TG_OP = 'UPDATE' THEN
        RAISE EXCEPTION 'ledger lines are never changed';
      ELSIF TG_OP = 'DELETE' THEN
        IF NOT EXISTS (SELECT 1 FROM ledger_leaving WHERE household = OLD.household_id) THEN
          RAISE EXCEPTION 'ledger lines are never deleted';
        END IF;
        RETURN OLD;
      ELSIF EXISTS (SELECT 1 FROM ledger_line l WHERE NOT EXISTS
                    (SELECT 1 FROM ledger_leaving g WHERE g.household = l.household_id)) THEN
        RAISE EXCEPTION 'ledger lines are never deleted';
      END IF;
      RETURN NULL;
    END $$
    """,
    """
    CREATE TRIGGER ledger_line_guard_rows BEFORE UPDATE OR DELETE ON ledger_line
    FOR EACH ROW EXECUTE FUNCTION ledger_line_guard()
    """,
    """
    CREATE TRIGGER ledger_line_guard_all BEFORE TRUNCATE ON ledger_line
    FOR EACH STATEMENT EXECUTE FUNCTION ledger_line_guard()
    """,
)
UNDO = {
    "sqlite": (
        "DROP TRIGGER ledger_line_no_update",
        "DROP TRIGGER ledger_line_no_delete",
        "DROP TRIGGER ledger_line_no_replace",
    ),
    "postgresql": (
        "DROP TRIGGER ledger_line_guard_rows ON ledger_line",
        "DROP TRIGGER ledger_line_guard_all ON ledger_line",
        "DROP FUNCTION ledger_line_guard()",
    ),
}


def guard(apps, schema_editor):
    statements = {"sqlite": SQLITE, "postgresql": POSTGRESQL}[schema_editor.connection.vendor]
    for statement in statements:
        schema_editor.execute(statement, params=None)


def open_again(apps, schema_editor):
    for statement in UNDO[schema_editor.connection.vendor]:
        schema_editor.execute(statement, params=None)


class Migration(migrations.Migration):
    dependencies = [("ledger", "0001_lines_and_feed")]

    operations = [migrations.RunPython(guard, open_again)]
