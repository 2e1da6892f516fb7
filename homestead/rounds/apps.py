from django.apps import AppConfig


class RoundsConfig(AppConfig):
    name = "homestead.rounds"
    label = "rounds"

    def ready(self) -> None:
        from homestead.ledger.derived import register_tables
        from homestead.ledger.followers import follow
        from homestead.ledger.kinds import register
        from homestead.ledger.records import register_record
        from homestead.rounds import models
        from homestead.rounds.folded import keep_suspects
        from homestead.rounds.kinds import KINDS
        from homestead.rounds.records import RECORDS
        from homestead.store.days import keep_days
        from homestead.store.folding import follow_folding

        for kind in KINDS:
            register(kind)
        for record_type in RECORDS:
            register_record(record_type)
        register_tables(models.Chore, models.Round, models.Inspection, models.FindingSeen)
        register_tables(models.Suspect, models.Decision, models.Claim, models.Offer, models.ChoreDone)
        follow(keep_days(models.Round, models.Inspection, models.Suspect, models.Decision, models.ChoreDone))
        follow_folding(keep_suspects)
