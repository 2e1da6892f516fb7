/** Deutsch. Kurz und greifbar, ohne Ausrufe. */
import type { Words } from './en';
import { many } from './many';

const count = many('de-DE');

export const de = {
  app: 'Winter Rounds',
  language: { en: 'English', de: 'Deutsch' },
  look: {
    what_next: 'Was nun',
    one_less: (name) => `${name}, eins weniger`,
    one_more: (name) => `${name}, eins mehr`,
    touch_to_type: (heard) => `${heard}. Antippen zum Eintippen`,
    touch_if_same: (name, amount) => `${name} war ${amount}. Antippen, wenn es gleich ist`,
    was: (amount) => `war ${amount}`,
    the_same: 'gleich',
    read: 'abgelesen',
    not_read: 'nicht abgelesen',
    photo_larger: (alt) => `${alt}. Größer`,
    come_near: 'Näher',
    step_back: 'Zurücktreten',
    close: 'Schließen',
    undo: 'Zurücknehmen',
  },
  shell: {
    places: 'Orte',
    notices: 'Hinweise',
    to_page: 'Zur Seite',
    rounds: 'Gänge',
    store: 'Lager',
    kitchen: 'Küche',
    scraps: 'Reste',
    season: 'Winter',
    household: 'Haushalt',
    find: 'Einen Posten suchen',
    change_light: 'Licht wechseln',
    back: 'Zurück',
    waiting: 'Wartet',
    not_found: 'Diese Seite gibt es nicht.',
    to_rounds: 'Zu den Gängen',
    invented: 'Ein erfundener Haushalt',
    leave_demo: 'Verlassen',
    new_version: 'Eine neue Fassung ist da.',
    take_it: 'Nehmen',
    opening: 'Das Lager wird geöffnet',
    wrong_turn: 'Hier ging etwas schief. Was festgehalten war, bleibt.',
    again: 'Neu beginnen',
  },
  sync: {
    all_sent: 'Alles gesendet',
    to_send: (lines, photos) =>
      lines > 0 && photos > 0
        ? `${count(lines, { other: '#' })} zu senden, ${count(photos, { one: '1 Foto', other: '# Fotos' })}`
        : lines > 0
          ? count(lines, { other: '# zu senden' })
          : count(photos, { one: '1 Foto zu senden', other: '# Fotos zu senden' }),
    oldest: (days) => count(days, { one: ', ältestes 1 Tag', other: ', ältestes # Tage' }),
    needs_you: (n) => count(n, { one: '1 braucht dich', other: '# brauchen dich' }),
    send_now: 'Jetzt senden',
    not_kept_safe: 'Nicht sicher verwahrt',
    halts: {
      sign_in: {
        word: 'Anmelden',
        why: 'Der Server fragt, wer dieses Telefon ist. Mit einem Code neu verbinden; alles bleibt solange hier.',
      },
      revoked: {
        word: 'Ausgesperrt',
        why: 'Die Leitung hat dieses Telefon von der Liste genommen. Was nicht gesendet wurde, liegt noch hier und lässt sich herausnehmen.',
      },
      update: {
        word: 'Neue Fassung nötig',
        why: 'Der Server braucht eine neuere Fassung der App. Neu laden; alles bleibt.',
      },
      stopped: {
        word: 'Angehalten',
        why: 'Der Server gab eine Antwort, die diese Fassung nicht kennt. Alles bleibt.',
      },
      not_ours: {
        word: 'Nicht unser Server',
        why: 'Eine fremde Seite hat geantwortet, wie in einem Gastnetz. Alles bleibt.',
      },
    },
  },
  troubles: {
    store_full:
      'Dieses Telefon ist voll. Platz schaffen, dann noch einmal festhalten; die Angaben bleiben stehen.',
    store_closed:
      'Das Telefon hat seinen Speicher losgelassen. App schließen und neu öffnen; die Angaben bleiben stehen.',
    store_newer:
      'Eine neuere Fassung der App hat diesen Speicher geschrieben. App neu laden; nichts wurde angerührt.',
    store_blocked: 'Ein anderes Fenster dieser App ist offen. Es schließen, dann weiter.',
    not_signed_in: 'Dieses Telefon gehört zu keinem Haushalt.',
    not_found: 'Dieser Eintrag ist nicht auf diesem Telefon.',
    not_mendable: 'Dieser lässt sich unter seinem Namen nicht ausbessern. Streichen und neu schreiben.',
    without_photo: 'Ohne das Foto festgehalten: Dieses Telefon ist voll.',
  },
  photos: {
    not_here: 'Dieses Foto ist nicht auf diesem Telefon. Es kommt mit dem nächsten Empfang.',
    coming: 'Das Foto kommt',
  },
  steps: { raw: 'Roh', cook: 'Kochen', pot: 'Topf', animals: 'Tiere', compost: 'Kompost', bin: 'Tonne' },
  roles: { keeper: 'Leitung', adult: 'groß', rounds: 'Gänge', child: 'Kind', minder: 'Hüter' },
  known: {
    counted: (amount) => `${amount} gezählt`,
    worked_out: (amount) => `etwa ${amount}`,
    presumed: (amount) => `vielleicht ${amount}`,
    band: (amount, low, high) => `${amount} (${low} bis ${high})`,
    count_it: 'nachzählen',
    unknown: 'nicht bekannt',
  },
  amounts: {
    pieces: (_n, shown) => `${shown} Stück`,
    lots: (n) => count(n, { one: '1 Posten', other: '# Posten' }),
    spaces: (n) => count(n, { one: '1 Raum', other: '# Räume' }),
    photos: (n) => count(n, { one: '1 Foto', other: '# Fotos' }),
    days: (n) => count(n, { one: '1 Tag', other: '# Tage' }),
    minutes: (n) => count(n, { one: '1 Minute', other: '# Minuten' }),
  },
  when: {
    today: 'heute',
    tomorrow: 'morgen',
    days_late: (n) => count(n, { one: '1 Tag zu spät', other: '# Tage zu spät' }),
    due_today: 'heute fällig',
  },
  writer: {
    who: 'Wer schreibt?',
    you: 'du',
    nobody: 'noch niemand',
    someone: 'jemand',
  },
} satisfies Words;
