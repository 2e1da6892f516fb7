/**
 * From what a browser says it ran to the source it was built from: `node covered.mjs DIST COVERAGE`, COVERAGE being
 * the answer of `Profiler.takePreciseCoverage` (Chrome DevTools Protocol). Prints `[["src/...", line], ...]`: where
 * each function begins that was called.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';

const require = createRequire(new URL('../../frontend/package.json', import.meta.url));
const { TraceMap, originalPositionFor } = require('@jridgewell/trace-mapping');

const [dist, coverage] = process.argv.slice(2);
const found = new Set();

/** Offsets of the lines' beginnings. */
function lines_of(text) {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}

function line_at(starts, offset) {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle] <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

for (const script of JSON.parse(readFileSync(coverage, 'utf8')).result) {
  const built = join(dist, 'assets', basename(script.url));
  if (!existsSync(`${built}.map`)) continue;
  const map = new TraceMap(readFileSync(`${built}.map`, 'utf8'));
  const starts = lines_of(readFileSync(built, 'utf8'));
  for (const { ranges } of script.functions) {
    const [whole] = ranges;
    if (whole.count === 0) continue;
    const line = line_at(starts, whole.startOffset);
    // The first mapping at or after the function's beginning.
    const place = originalPositionFor(map, { line: line + 1, column: whole.startOffset - starts[line], bias: 1 });
    const source = place.source?.split('/frontend/').at(-1)?.replace(/^.*\bsrc\//, 'src/');
    if (source && place.line) found.add(JSON.stringify([source, place.line]));
  }
}
console.log(`[${[...found].join(',')}]`);
