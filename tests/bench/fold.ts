/** Times the phone's twin on the lines in the file named; prints JSON. Started by `fold.py`. */
import { readFileSync } from "node:fs";
import {
  fold_all,
  fold_on,
  lot_at,
  lot_ids,
} from "../../frontend/src/storekeeping/fold.ts";
import type { Line, Setting } from "../../frontend/src/storekeeping/state.ts";

interface Asked {
  readonly setting: Setting;
  readonly today: string;
  readonly text: string;
}

const RUNS = 7;
const { setting, today, text } = JSON.parse(
  readFileSync(process.argv[2] ?? "", "utf8"),
) as Asked;
const lines = JSON.parse(text) as Line[];

function median(times: number[]): number {
  return (
    times.sort((one, other) => one - other)[Math.floor(times.length / 2)] ?? NaN
  );
}

/** Time of the processor, as the Python half measures it: other programs do not count. */
function time_ms(work: () => unknown): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

function median_ms(work: () => unknown, runs = RUNS): number {
  return median(Array.from({ length: runs }, () => time_ms(work)));
}

const first_ms = time_ms(() => fold_all(lines, setting));
const before = fold_all(lines.slice(0, -500), setting);
const one_more_ms = median(
  lines.slice(-500).map((line) => time_ms(() => fold_on(before, line))),
);
const folded = fold_all(lines, setting);
const answer = {
  json_ms: median_ms(() => JSON.parse(text)),
  fold_ms: median_ms(() => fold_all(lines, setting)),
  first_ms,
  one_more_ms,
  shown_ms: median_ms(
    () => lot_ids(folded).map((lot) => lot_at(folded, lot, today)),
    3,
  ),
};
console.log(JSON.stringify(answer));
