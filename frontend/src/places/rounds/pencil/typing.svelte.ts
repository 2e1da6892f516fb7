/** What is typed in from a pencil sheet, lot by lot. */
import type { LotState } from '../../../storekeeping/state';
import { typedNumber } from '../../../look/number';
import { figures } from '../../../words';
import { house } from '../../shared/house.svelte';
import { table_crop } from '../../shared/names';
import { planOf } from '../footing';
import { ticksFor } from '../ticks';
import { lots_along } from './lots';
import { typed_entries, type Mark, type OutTo, type TypedLot } from './typed';

export class LotTyped {
  mark = $state<Mark>('blank');
  looked = $state('');
  out = $state('');
  finding = $state('');
  to = $state<OutTo>('compost');
  readonly findings: readonly string[];

  constructor(readonly lot: LotState) {
    const crop = table_crop(lot.crop);
    const plan = planOf(lot.id);
    this.findings = ticksFor(crop, house.reference.look_fors(crop));
    this.finding = this.findings[0] ?? 'unsure';
    this.looked = plan.looked === undefined ? '' : figures().plain(plan.looked);
  }
  get value(): TypedLot {
    const looked = typedNumber(this.looked);
    return {
      lot: this.lot.id,
      mark: this.mark,
      whole: planOf(this.lot.id).whole,
      looked: looked !== undefined && looked > 0 ? Math.round(looked) : undefined,
      out: Math.max(0, Math.round(typedNumber(this.out) ?? 0)),
      finding: this.finding,
      to: this.to,
    };
  }
}

export class PencilTyping {
  day = $state(house.today);
  temp = $state('');
  damp = $state('');
  readonly lots: readonly LotTyped[];
  readonly marked = $derived.by(() => this.lots.filter((lot) => lot.mark !== 'blank').length);

  constructor(readonly space: string) {
    this.lots = lots_along(space).map((lot) => new LotTyped(lot));
  }
  /** `now` as ISO 8601 in UTC. */
  entries(now: string) {
    const temp = typedNumber(this.temp);
    return typed_entries({
      round: house.ledger.mint_id(),
      space: this.space,
      day: this.day !== '' && this.day < house.today ? this.day : undefined,
      now,
      temp_c: temp === undefined ? undefined : figures().celsius(temp),
      rh_pct: typedNumber(this.damp),
      lots: this.lots.map((lot) => lot.value),
    });
  }
}
