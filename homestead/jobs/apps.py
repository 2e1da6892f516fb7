from django.apps import AppConfig


class JobsConfig(AppConfig):
    name = "homestead.jobs"
    label = "jobs"

    def ready(self) -> None:
        from homestead.jobs.work import after_push
        from homestead.ledger.followers import follow_after_commit

        follow_after_commit(after_push)
