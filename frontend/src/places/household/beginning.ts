/** A household of one's own: what is asked of the server, and the first spaces and animals, kept on the phone. */
import { access, type Paired } from '../../ledger';
import { tongue } from '../../words';
import { household_words } from '../../words/household';
import { house } from '../shared/house.svelte';
import { capital } from '../shared/lot_words';
import { first_cautions, type SpaceKind } from './kinds';

export interface Beginning {
  readonly name: string;
  readonly keeper: string;
  readonly phone: string;
  readonly country: string;
  readonly key: string;
  readonly spaces: readonly SpaceKind[];
  /** Kind of animal and how many. */
  readonly animals: Readonly<Record<string, number>>;
}

/** South of the equator by the zone's name: winter is in June there. Continents only; mended under Household. */
export const hemisphere_of = (zone: string): 'north' | 'south' =>
  /^(Australia|Antarctica|Pacific\/Auckland|America\/(Argentina|Santiago|Sao_Paulo|Montevideo|Asuncion)|Africa\/(Johannesburg|Maputo|Harare|Windhoek))/.test(
    zone,
  )
    ? 'south'
    : 'north';

export async function begin_household(
  asked: Beginning,
  animal_name: (kind: string) => string,
): Promise<Paired> {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const founded = await access().found({
    household: {
      name: asked.name,
      zone,
      hemisphere: hemisphere_of(zone),
      language: tongue.language,
      units: tongue.manner.weight === 'lb' ? 'imperial' : 'metric',
      ...(asked.country && { country: asked.country }),
    },
    keeper: asked.keeper,
    phone: asked.phone,
    ...(asked.key && { key: asked.key }),
  });
  if (!founded.ok) return founded;
  await house.enter(founded.home);
  for (const [order, kind] of asked.spaces.entries()) {
    const name = capital(household_words().space.kinds[kind]);
    await house.edit('space', house.ledger.mint_id(), {
      name,
      kind,
      order,
      cautions: [...(first_cautions[kind] ?? [])],
    });
  }
  for (const [kind, number] of Object.entries(asked.animals)) {
    await house.edit('animals', house.ledger.mint_id(), { name: capital(animal_name(kind)), kind, number });
  }
  await house.ledger.keep_safe();
  return founded;
}
