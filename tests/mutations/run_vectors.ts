/**
 * Runs the vectors against copies of the TypeScript twin: `node run_vectors.ts COPY...`, each a folder with `fold.ts`.
 * Prints, as JSON, the names of the vectors each copy turns red.
 */
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { disagreements, type Vector } from "../storekeeping/agreement.ts";

type Fold = typeof import("../../frontend/src/storekeeping/fold.ts");

const vectors = ["fold_by_hand.json", "fold_generated.json"].flatMap((name) => {
  const text = readFileSync(
    new URL(`../../fixtures/vectors/${name}`, import.meta.url),
    "utf8",
  );
  return (JSON.parse(text) as { vectors: Vector[] }).vectors;
});

function is_red({ fold_all, state_at }: Fold, vector: Vector): boolean {
  try {
    return (
      disagreements(
        vector,
        state_at(fold_all(vector.lines, vector.setting), vector.today),
      ).length > 0
    );
  } catch {
    return true; // a mistake may as well end in an error
  }
}

const red: Record<string, string[]> = {};
for (const copy of process.argv.slice(2)) {
  const fold = (await import(pathToFileURL(`${copy}/fold.ts`).href)) as Fold;
  red[copy] = vectors
    .filter((vector) => is_red(fold, vector))
    .map((vector) => vector.name);
}
console.log(JSON.stringify(red));
