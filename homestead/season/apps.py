from django.apps import AppConfig


class SeasonConfig(AppConfig):
    name = "homestead.season"
    label = "season"

    def ready(self) -> None:
        from homestead.rounds.asked import add_source
        from homestead.season.heaps import heaps_to_turn

        add_source(heaps_to_turn)
