/** English, and the type the other languages satisfy. Short, concrete, verbs of the trade; no cheering. */
import { many } from './many';

const count = many('en-GB');

export const en = {
  app: 'Winter Rounds',
  language: { en: 'English', de: 'Deutsch' },
  look: {
    what_next: 'What next',
    one_less: (name: string) => `${name}, one less`,
    one_more: (name: string) => `${name}, one more`,
    touch_to_type: (heard: string) => `${heard}. Touch to type`,
    touch_if_same: (name: string, amount: string) => `${name} was ${amount}. Touch if it is the same`,
    was: (amount: string) => `was ${amount}`,
    the_same: 'the same',
    read: 'read',
    not_read: 'not read',
    photo_larger: (alt: string) => `${alt}. Larger`,
    come_near: 'Come near',
    step_back: 'Step back',
    close: 'Close',
    undo: 'Undo',
  },
  shell: {
    places: 'Places',
    notices: 'Notices',
    to_page: 'To the page',
    rounds: 'Rounds',
    store: 'Store',
    kitchen: 'Kitchen',
    scraps: 'Scraps',
    season: 'Season',
    household: 'Household',
    find: 'Find a lot',
    change_light: 'Change the light',
    back: 'Back',
    waiting: 'Waiting',
    not_found: 'There is no such page.',
    to_rounds: 'To Rounds',
    invented: 'An invented household',
    leave_demo: 'Leave it',
    new_version: 'A new version is here.',
    take_it: 'Take it',
    opening: 'Opening the store',
    wrong_turn: 'Something went wrong here. What was kept is kept.',
    again: 'Begin again',
  },
  sync: {
    all_sent: 'All sent',
    to_send: (lines: number, photos: number) =>
      lines > 0 && photos > 0
        ? `${count(lines, { other: '#' })} to send, ${count(photos, { one: '1 photo', other: '# photos' })}`
        : lines > 0
          ? count(lines, { other: '# to send' })
          : count(photos, { one: '1 photo to send', other: '# photos to send' }),
    oldest: (days: number) => count(days, { one: ', oldest 1 day', other: ', oldest # days' }),
    needs_you: (n: number) => count(n, { one: '1 needs you', other: '# need you' }),
    send_now: 'Send now',
    not_kept_safe: 'Not kept safe',
    halts: {
      sign_in: {
        word: 'Sign in',
        why: 'The server asks who this phone is. Join it anew with a code; everything is kept here meanwhile.',
      },
      revoked: {
        word: 'Shut out',
        why: 'A keeper took this phone off the list. What was not sent is still here and can be taken out.',
      },
      update: {
        word: 'New version needed',
        why: 'The server needs a newer version of the app. Load it anew; everything is kept.',
      },
      stopped: {
        word: 'Stopped',
        why: 'The server gave an answer this version does not know. Everything is kept.',
      },
      not_ours: {
        word: 'Not our server',
        why: 'A page that is not ours answered, as in a guest network. Everything is kept.',
      },
    },
  },
  troubles: {
    store_full: 'This phone is full. Free some room, then keep it again; what you set stays here.',
    store_closed: 'The phone let go of its store. Close the app and open it again; what you set stays here.',
    store_newer: 'A newer version of the app wrote this store. Load the app anew; nothing was touched.',
    store_blocked: 'Another window of this app is open. Close it, then go on.',
    not_signed_in: 'This phone is not joined to a household.',
    not_found: 'That entry is not on this phone.',
    not_mendable: 'This one can’t be mended under its own name. Strike it and write it anew.',
    without_photo: 'Kept without the photo: this phone is full.',
  },
  photos: {
    not_here: 'This photo is not on this phone. It comes with the next signal.',
    coming: 'The photo is coming',
  },
  steps: { raw: 'Raw', cook: 'Cook', pot: 'Pot', animals: 'Animals', compost: 'Compost', bin: 'Bin' },
  roles: { keeper: 'keeper', adult: 'adult', rounds: 'rounds', child: 'child', minder: 'minder' },
  known: {
    counted: (amount: string) => `${amount} counted`,
    worked_out: (amount: string) => `about ${amount}`,
    presumed: (amount: string) => `perhaps ${amount}`,
    band: (amount: string, low: string, high: string) => `${amount} (${low} to ${high})`,
    count_it: 'count it',
    unknown: 'not known',
  },
  amounts: {
    pieces: (n: number, shown: string) => (n > 0 && n <= 1 ? `${shown} piece` : `${shown} pieces`),
    lots: (n: number) => count(n, { one: '1 lot', other: '# lots' }),
    spaces: (n: number) => count(n, { one: '1 space', other: '# spaces' }),
    photos: (n: number) => count(n, { one: '1 photo', other: '# photos' }),
    days: (n: number) => count(n, { one: '1 day', other: '# days' }),
    minutes: (n: number) => count(n, { one: '1 minute', other: '# minutes' }),
  },
  when: {
    today: 'today',
    tomorrow: 'tomorrow',
    days_late: (n: number) => count(n, { one: '1 day late', other: '# days late' }),
    due_today: 'due today',
  },
  writer: {
    who: 'Who is writing?',
    you: 'you',
    nobody: 'nobody yet',
    someone: 'someone',
  },
};

export type Words = typeof en;
