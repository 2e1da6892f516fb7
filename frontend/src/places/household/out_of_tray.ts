/** Acts on a refused entry, each by a person's word. */
import type { Body, Line, Outcome, TrayLine } from '../../ledger';
import { grown } from '../shared/records';
import { house } from '../shared/house.svelte';
import { as_accident, as_sound, to_compost, with_amount, type Way } from './ways_out';

/** Written by who first wrote it, under its own id; under a new one where that can't be. */
async function written_anew(row: TrayLine, body: Body, person?: string): Promise<Outcome<unknown>> {
  const { written } = row;
  if (row.refusal.code !== 'erased' && (person === undefined || person === written.person))
    return house.ledger.tray.mend(row.id, body);
  const day = house.now.toISOString().startsWith(written.happened_at.slice(0, 10))
    ? undefined
    : written.happened_at.slice(0, 10);
  const kept: Outcome<Line> = await house.ledger.record({
    kind: written.kind,
    schema: written.schema,
    body,
    person: person ?? written.person,
    ...(day && { day }),
    ...(written.photos && { photos: written.photos }),
  });
  return kept.ok ? house.ledger.tray.drop(row.id) : kept;
}

export function take_way(
  row: TrayLine,
  way: Exclude<Way, 'eaten'>,
  amount: number,
): Promise<Outcome<unknown>> {
  const { body } = row.written;
  switch (way) {
    case 'compost':
      return written_anew(row, to_compost(body));
    case 'sound':
      return written_anew(row, as_sound(body));
    case 'amount':
      return written_anew(row, with_amount(body, amount));
    case 'again':
      return row.mendable ? house.ledger.tray.send_again(row.id) : written_anew(row, body);
    case 'never':
      return house.ledger.tray.drop(row.id);
  }
}

/** An adult writes it; one who is no adult wrote it first, so the adult's own entry takes its place. */
export function keep_accident(row: TrayLine, grams: number | undefined): Promise<Outcome<unknown>> {
  const first = house.person(row.written.person);
  const person = grown(first?.role) ? row.written.person : house.writer_id;
  return written_anew(row, as_accident(row.written.body, grams), person);
}
