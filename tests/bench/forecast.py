"""Forecasts beside simpler ones on invented seasons, and what they cost.

    python tests/bench/forecast.py [--cases cases.jsonl --truth truth.jsonl] [--speed]

Three forecasts answer the same questions: ours, the handbook's life alone, and a Weibull curve fitted by the
lifelines library to the lot's own losses. Scores: share of truths inside P10 to P90; mean error and
interval score
as a ratio to the handbook alone, where less than 1 is better; Brier score of the chance to last.
"""

from __future__ import annotations

import argparse
import datetime as dt
import json
import os
import sys
import time
import warnings
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1")
ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
SEASONS = ROOT / "tests" / "science" / "data"

import lifelines  # noqa: E402
import numpy as np  # noqa: E402

from homestead.science.chance import chances  # noqa: E402
from homestead.science.lots import Lot  # noqa: E402
from homestead.science.outlook import look_ahead  # noqa: E402
from homestead.science.past import lot_temps_c  # noqa: E402
from homestead.science.plain import Curves, ages_days, handbook_curves, plain_ahead  # noqa: E402
from homestead.science.rooms import Reading  # noqa: E402
from homestead.science.score import interval_score  # noqa: E402
from homestead.science.survival import first_belief, fit_lot, hear_more  # noqa: E402
from homestead.season.cases import SEED, Book, Line, answers, read_line, told  # noqa: E402
from tests.bench.told import Told, tell  # noqa: E402

SEASONS_REFIT, LOTS = 10, 44
QUANTITIES = ("sound_now", "sound_28", "sound_56", "lost_56", "run_out_day")
NAMES = ("ours", "handbook only", "lifelines only")


def questions_with_past(lines: list[str]) -> Iterator[tuple[Line, list[Reading]]]:
    """Each question with the readings of its space that stand above it."""
    books: dict[str, Book] = {}
    for text in lines:
        line = read_line(text)
        book = books.setdefault(line.household, Book())
        if line.is_question:
            yield line, book.readings_of(line.lot.space, line.as_of)
        else:
            book.finished.append(line)


def plain_answers(lines: list[str], with_lifelines: bool) -> Iterator[dict[str, Any]]:
    """Answers of the handbook alone, or of a Weibull curve of the lot's own losses."""
    for line, past in questions_with_past(lines):
        lot, end = line.lot.before(line.as_of), line.as_of + dt.timedelta(days=413)
        temps = lot_temps_c(lot, end, line.readings, past)
        curves = handbook_curves(lot.handbook)
        if with_lifelines:
            curves = weibull_curves(lot, ages_days(lot.handbook, temps)) or curves
        yield told(line, plain_ahead(lot, line.as_of, temps, curves))


def weibull_curves(lot: Lot, ages: Any) -> Curves | None:
    """lifelines' Weibull fit of losses and takes; its 80 % band by 21 draws of its own covariance."""
    rows = [(ages[(k.day - lot.put_away).days], 1, k.culled) for k in lot.looks]
    rows += [(ages[(t.day - lot.put_away).days], 0, t.pieces) for t in lot.takes]
    rows += [(ages[(t.day - lot.put_away).days], 1, t.tossed) for t in lot.takes]
    left = max(lot.pieces - sum(weight for _, _, weight in rows), 0.0)
    last = max((lot.last_record() or lot.put_away), lot.put_away)
    rows.append((ages[(last - lot.put_away).days], 0, left))
    age, lost, weight = (np.array(column, dtype=float) for column in zip(*rows, strict=True))
    kept = (weight > 0) & (age > 0)
    if weight[kept & (lost == 1)].sum() < 3 or len(set(age[kept & (lost == 1)])) < 2:
        return None
    return drawn(age[kept], lost[kept], weight[kept])


def drawn(age: Any, lost: Any, weight: Any) -> Curves | None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            fit = lifelines.WeibullFitter().fit(age, lost, weights=weight)
        except Exception:
            return None
        spread = np.asarray(fit.variance_matrix_)
        pairs = np.random.default_rng(1).multivariate_normal([fit.lambda_, fit.rho_], spread, 21)
    pairs = np.maximum(pairs, [1.0, 0.3])
    return Curves(pairs[:, 0] * (1 / 3) ** (1 / pairs[:, 1]), pairs[:, 1])


def score(truths: dict[str, Any], answered: list[dict[str, Any]]) -> dict[str, dict[str, float]]:
    """cover, mean error and interval score of each quantity, and the Brier score."""
    table: dict[str, dict[str, float]] = {}
    for name in QUANTITIES:
        rows = [one_score(truths[a["case"]], a[name], name) for a in answered]
        cover = float(np.mean([row[0] for row in rows]))
        errors = np.array([row[1:] for row in rows if row[1] is not None], dtype=float)
        table[name] = {"cover": 100 * cover, "mae": errors[:, 0].mean(), "interval": errors[:, 1].mean()}
    hits = [(a["p_lasts"] - truths[a["case"]]["lasts"]) ** 2 for a in answered]
    table["p_lasts"] = {"brier": float(np.mean(hits))}
    return table


def one_score(truth: Any, band: Any, name: str) -> tuple[bool, float | None, float | None]:
    """Covered or not, absolute error, interval score; a run-out never seen has no error."""
    if truth[name] is None:
        return band["p90"] >= truth["censor_day"], None, None
    unit = 1.0 if name == "run_out_day" else 100.0 / truth["start"]
    low, high, happened = band["p10"], band["p90"], truth[name]
    return (
        low <= happened <= high,
        abs(band["mean"] - happened) * unit,
        interval_score(low, high, happened) * unit,
    )


def side_by_side(cases: Path, truth: Path) -> None:
    """Print the table of the three forecasts."""
    lines = [line for line in cases.read_text().splitlines() if line.strip()]
    truths = {row["case"]: row for row in map(json.loads, truth.read_text().splitlines())}
    answered = [list(answers(lines)), list(plain_answers(lines, False)), list(plain_answers(lines, True))]
    for scenario in sorted({row["scenario"] for row in truths.values()}):
        of = [[a for a in one if truths[a["case"]]["scenario"] == scenario] for one in answered]
        print(f"\n{scenario}, {len(of[0])} questions; errors in % of the pieces put away, run-out in days")
        print_scenario([score(truths, one) for one in of])


def print_scenario(tables: list[dict[str, dict[str, float]]]) -> None:
    print(f"{'':12} {'':15} {'cover %':>8} {'error':>8} {'ratio':>6} {'interval':>9} {'ratio':>6}")
    for quantity in QUANTITIES:
        for name, table in zip(NAMES, tables, strict=True):
            got, base = table[quantity], tables[1][quantity]
            errors = f"{got['mae']:8.2f} {got['mae'] / base['mae']:6.2f}"
            bands = f"{got['interval']:9.2f} {got['interval'] / base['interval']:6.2f}"
            print(f"{quantity:12} {name:15} {got['cover']:8.1f} {errors} {bands}")
    brier = ", ".join(f"{n} {t['p_lasts']['brier']:.3f}" for n, t in zip(NAMES, tables, strict=True))
    print(f"{'p_lasts':12} Brier: {brier}")


def milliseconds(work: Any, times: int) -> float:
    began = time.process_time()
    for _ in range(times):
        work()
    return 1000 * (time.process_time() - began) / times


def speed(lines: list[str]) -> None:
    """Print what a lot, a night and more entries cost, in processor time of one core."""
    asked = [line for line in map(read_line, lines) if line.is_question]
    chance = chances(SEED)
    one = max(asked, key=lambda line: len(line.lot.before(line.as_of).takes))
    lot = one.lot.before(one.as_of)
    temps = lot_temps_c(lot, one.as_of + dt.timedelta(days=14), one.readings, [])
    fitted = fit_lot(lot, temps, one.as_of, first_belief(lot), chance)
    soon = one.as_of + dt.timedelta(days=1)
    more = replace(lot, takes=(*lot.takes, replace(lot.takes[-1], day=one.as_of)))
    ahead = np.full(406, 5.0)
    news = milliseconds(lambda: look_ahead(hear_more(fitted, more, temps, soon), ahead, chance), 40)
    told = [Told("forecast of one lot after one more entry", news, 5, "ms"), refit(lines, chance)]

    def night(count: int) -> float:
        chosen = [asked[number % len(asked)] for number in range(count)]
        return milliseconds(lambda: [afresh(line, chance, ahead) for line in chosen], 1) / 1000

    times = {count: night(count) for count in (50, 100, 200, 400)}
    grown = ", ".join(f"{count} lots {seconds:.2f} s" for count, seconds in times.items())
    told.append(Told("night's forecasts of a household, 400 lots afresh", times[400], 5, "s", grown))
    told.append(Told("growth: 400 lots against 50", times[400] / times[50], 8 * 1.25, "x", "8 is a line"))
    costs = {}
    for share in (0.25, 0.5, 1.0):
        takes = lot.takes[: int(len(lot.takes) * share)]
        cut = replace(lot, takes=takes)
        costs[len(takes)] = milliseconds(
            lambda cut=cut: fit_lot(cut, temps, one.as_of, first_belief(lot), chance), 10
        )
    few, many = min(costs), max(costs)
    grown = ", ".join(f"{takes} takes {cost:.1f} ms" for takes, cost in costs.items())
    told.append(
        Told(
            f"growth: fit of a lot with {many} takes against {few}",
            costs[many] / costs[few],
            many / few,
            "x",
            grown,
        )
    )
    tell(told)


def refit(lines: list[str], chance: Any) -> Told:
    """What ten seasons of 44 finished lots say, learned from nothing: the finished lots told over again."""
    book = Book()
    finished = [line for line in map(read_line, lines) if not line.is_question]
    book.finished = [
        replace(finished[number % len(finished)], name=f"lot {number}")
        for number in range(SEASONS_REFIT * LOTS)
    ]
    last = max(line.as_of for line in finished)
    seconds = milliseconds(lambda: book.words(last, chance), 1) / 1000
    return Told(f"yearly refit of {SEASONS_REFIT} seasons, {LOTS} lots each", seconds, 60, "s")


def afresh(line: Line, chance: Any, ahead: Any) -> None:
    temps = lot_temps_c(line.lot, line.as_of, line.readings, [])
    look_ahead(fit_lot(line.lot, temps, line.as_of, first_belief(line.lot), chance), ahead, chance)


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--cases", type=Path, default=SEASONS / "invented_seasons.jsonl")
    parser.add_argument("--truth", type=Path, default=SEASONS / "invented_seasons_truth.jsonl")
    parser.add_argument("--speed", action="store_true", help="only what it costs")
    args = parser.parse_args()
    if not args.speed:
        side_by_side(args.cases, args.truth)
    speed(args.cases.read_text().splitlines())


if __name__ == "__main__":
    main()
