/** Season, Rooms: the air of each space, frost, whether to open tonight, and what it costs the lots. */
import { many } from './many';

const count = many('en-GB');

export const rooms_en = {
  nothing: 'The household’s server has not worked the rooms out yet. These are the last readings.',
  open_these: (rooms: string) => `Open tonight: ${rooms}.`,
  open_nothing: 'Open nothing tonight.',
  open_nothing_frost: 'Open nothing tonight: it is near frost outside.',
  all_right: 'All rooms are right.',
  not_right: {
    warm: 'Too warm',
    cold: 'Too cold',
    damp: 'Too damp',
    dry: 'Too dry',
    near_frost: 'Near frost',
    thaws: 'Thaws',
  } as Readonly<Record<string, string>>,
  these: (what: string, rooms: string) => `${what}: ${rooms}.`,
  outside_helps: (room: string, low: string, high: string) =>
    `Open ${room} when it is ${low} to ${high} outside.`,
  outside: (temp: string, damp: string, when: string) => `Outside ${temp}, ${damp}, read ${when}.`,
  no_outside: 'Nobody read the air outside in the last 12 hours.',
  read_outside: 'Read warmth and humidity at a bed; then this page says whether to open tonight.',
  no_bed: 'Name the garden or the yard as a bed, and read warmth and humidity there.',
  to_spaces: 'Spaces',
  as_of: (when: string) => `Worked out ${when}.`,
  as_of_behind: (when: string) => `Worked out ${when}; readings since are not in it.`,
  legend: {
    wanted: 'wanted',
    lately: 'read in 7 days',
    likely: 'likely in 7 days',
    frost: 'frost for what lies there',
  },
  word: {
    right: 'Right for what lies there.',
    warm: 'Warm for what lies there.',
    cold: 'Cold for what lies there.',
    damp: 'Damp for what lies there.',
    dry: 'Dry for what lies there.',
    near_frost: 'Near frost.',
    nothing_there: 'Nothing lies here that asks for air.',
    frozen: 'Frozen through.',
    thaws: 'Warm for a freezer: look for packs gone soft.',
    no_reading: 'No thermometer was read here: what is shown is a usual room.',
  } as Readonly<Record<string, string>>,
  crossed: 'No air is right for all that lies here: part them.',
  week: (low: string, high: string) => `Likely ${low} to ${high} in the last 7 days.`,
  dew: (temp: string) => `Wets what is colder than ${temp}.`,
  stuck: (days: number) =>
    `The same figure for ${count(days, { one: '1 day', other: '# days' })}: is the thermometer alive? The range counts it no more.`,
  frost: (room: string) => `Frost: ${room}.`,
  frost_near: (room: string) => `Near frost: ${room}.`,
  frost_lowest: (lowest: string, low: string, high: string) =>
    `It may come down to ${lowest} (${low} to ${high}).`,
  freezes: (crop: string, at: string) => `Frost for ${crop} from ${at}.`,
  frost_do: 'Cover what stands at the outer wall, or carry it in, before dark.',
  no_flame: 'No flame and no engine inside against frost: their gas kills.',
  by_readings: 'By its own readings; air outside read at dusk makes it surer.',
  vent: {
    too_warm: (becomes: string, shut: string) =>
      `Open tonight: it cools, and dries to ${becomes}. Shut at ${shut}.`,
    too_damp: (becomes: string, shut: string) => `Open tonight: it dries to ${becomes}. Shut at ${shut}.`,
    too_dry: (becomes: string, shut: string) =>
      `Open tonight: the air outside brings water. Shut at ${shut}.`,
    frost: () => 'Keep shut: too cold outside.',
    wet_air: () => 'Keep shut: rain or fog.',
    would_wet: () => 'Keep shut: the air outside would wet what is cold.',
    nothing_to_gain: () => 'Keep shut: nothing is gained.',
  } as Readonly<Record<string, (becomes: string, shut: string) => string>>,
  costs: (crops: string, days: string, low: string, high: string, best: string) =>
    `Each week here costs about ${days} days of keeping (${low} to ${high}) against ${best}: ${crops}.`,
  chilled_may: (lot: string, below: string) => `${lot} lay under ${below} for long: it may be chilled.`,
  chilled_surely: (lot: string, below: string) => `${lot} lay under ${below} too long: use it first.`,
  limp_now: (lot: string) => `${lot}: limp or wrinkled by now. Cook it.`,
  softening: (lot: string, soon: string, late: string) => `${lot}: softening; limp ${soon} to ${late}.`,
  limp_on: (lot: string, soon: string, late: string) => `${lot}: limp ${soon} to ${late}.`,
  later: 'later than half a year',
  drying_how: 'By warmth and humidity read, known to a factor of two.',
  neighbours: (gives: string, suffers: string) =>
    `Ripening gas of ${gives} hurts ${suffers}. Part them, or air more.`,
  gas_lead: 'A shut room with rot or ferment? Air it first, never go in alone.',
  gas: 'Rot and ferment give carbon dioxide; it may not smell, and a flame is no test of it. The rules of your place come before this page.',
  source: 'source',
  amiss: (why: string) => `Not all is worked out here: ${why}`,
  more: 'More, and a table',
  from: 'From',
  likely: 'likely',
  read: 'read',
  reads: (n: number) => (n ? count(n, { one: 'once', other: '# times' }) : 'not read'),
  back: 'Rooms',
  power: 'Power is out',
  a_reading: 'A reading',
  reading: {
    title: 'A reading',
    where: 'Where?',
    warmth: 'Warmth now',
    damp: 'Humidity',
    keep: 'Keep the reading',
    nothing: 'Touch a number first: what nobody read is not written.',
    kept: 'Kept.',
    outside_too: 'At a bed read both: only then it counts as the air outside.',
    none: 'There is no space yet.',
  },
};

export type RoomsWords = typeof rooms_en;
