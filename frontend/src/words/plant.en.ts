/** Season, Plant: how much to put away and to plant for next winter. */
import { many } from './many';

const count = many('en-GB');

export const plant_en = {
  nothing: 'Too little is known yet to say what to plant.',
  nothing_how:
    'It takes a crop that was eaten for eight weeks, or a weekly use that somebody told. The household’s server works it out.',
  more_and_less: (more: string, less: string) => `Plant more ${more}, and less ${less}.`,
  more: (more: string) => `Plant more ${more}.`,
  less: (less: string) => `Plant less ${less}.`,
  as_before: 'Plant about what you did.',
  enough: 'Enough to last to the next harvest in 8 winters of 10, after shrink.',
  crop: 'Crop',
  put_away: 'Put away',
  plant: 'Plant',
  had: (amount: string) => `had ${amount}`,
  range: (low: string, high: string) => `${low} to ${high}`,
  plants: (n: number) => count(n, { one: '1 plant', other: '# plants' }),
  from: 'Use: your winters’ takes and what you told. Yield: your own figure, else the printed one.',
  as_of: (when: string) => `As of ${when}.`,
  unknown: (crops: string) => `Too little is known of ${crops}.`,
  sow: 'To sow or plant out',
  months: (from: string, until: string) => `${from} to ${until}`,
  sow_hint: 'Months of the tables, for a temperate garden: your own spring decides.',
  back: 'Plant',
  no_such: 'Nothing is worked out for this crop yet.',
  lead: (amount: string) => `Put away ${amount}.`,
  lead_plant: (amount: string, plants: string) => `Put away ${amount}: plant ${plants}.`,
  service: (range: string) => `Enough in 8 winters of 10; in 5 to 9 of 10: ${range}.`,
  need: (amount: string, range: string, weeks: number) =>
    `To be eaten in ${count(weeks, { one: '1 week', other: '# weeks' })}: about ${amount} (${range}).`,
  told: 'By your weekly use and your own winters.',
  not_told: 'By your own winters.',
  seed: (amount: string) => `${amount} more for seed.`,
  kept: (of_100: number, lots: number) =>
    lots
      ? `Of 100 put away about ${of_100} come to some good: ${count(lots, { one: '1 finished lot', other: '# finished lots' })} and the handbook.`
      : `Of 100 put away about ${of_100} come to some good, by the handbook alone.`,
  edible: (fresh: string, late: string) => `Peeled, ${fresh} of it is eaten while fresh, ${late} at the end.`,
  winters: 'Your winters',
  winter: (year: string, next: string, amount: string) => `${year}/${next}: ${amount} put away`,
  eaten: (amount: string) => `eaten ${amount}`,
  given: (amount: string) => `given away ${amount}`,
  put_by: (amount: string) => `put by ${amount}`,
  lost: (amount: string) => `lost ${amount}`,
  left: (amount: string) => `${amount} left`,
  ended: (what: string, day: string) => (what ? `${what}; all gone ${day}` : `all gone ${day}`),
  yield: 'Yield',
  brings: {
    plant: (w: string) => `A plant brings ${w}.`,
    metre: (w: string) => `A metre of row brings ${w}.`,
  },
  printed: (w: string) => `Printed: ${w}.`,
  own: 'Your own figure.',
  own_figures: 'Your own figures',
  source: 'source',
  own_yield: { plant: 'Yours, a plant', metre: 'Yours, a metre of row' },
  own_use: 'Eaten a week',
  own_use_soft: 'while it is fresh',
  keep: 'Keep',
  kept_own: 'Kept. The server reckons anew when it next hears of it.',
  keepers: 'A keeper sets your own figures.',
  plot: 'Each winter’s put away against what is wanted.',
  wanted: 'wanted, 8 winters in 10',
  was_put_away: 'put away',
  as_table: 'As a table',
};

export type PlantWords = typeof plant_en;
