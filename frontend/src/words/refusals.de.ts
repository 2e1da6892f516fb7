/** Warum der Server einen Eintrag nicht nahm, nach seinem Code; `never` nach dem Grund. */
import type { RefusalWords } from './refusals.en';

export const refusals_de = {
  reasons: {
    findings_needed: 'Es steht nicht da, was daran gesehen wurde; darum geht es an kein Tier.',
    unsure: 'Es war als unsicher vermerkt, und Unsicheres geht an kein Tier.',
    rot_or_mould:
      'Es war als schimmlig oder faul vermerkt. So etwas geht an kein Tier, darum wurde der Eintrag nicht genommen.',
    withheld: 'Diese Tiere bekommen jetzt keine Reste: Sie sind krank oder in Behandlung.',
    housing_order: 'Für Geflügel gilt die Aufstallung: Nichts geht zu ihnen nach draußen.',
    salted: 'Es war gesalzen; darum geht es an kein Tier.',
    spent: 'Es war für Brühe ausgekocht; darum geht es an kein Tier.',
    treated: 'Es war gebeizt oder behandelt; darum geht es an kein Tier.',
    never: 'In diesem Zustand ist es nie für diese Tiere.',
    avoid: 'In diesem Zustand ist es nicht für diese Tiere.',
    not_known: 'Niemand weiß, ob diese Tiere das haben dürfen; darum wurde es nicht genommen.',
    country_not_set: 'Was in einer Küche geschnitten wurde, geht an kein Tier, bis das Land feststeht.',
    law_not_confirmed:
      'Was in einer Küche geschnitten wurde, geht an kein Tier, bis die Leitung die örtliche Regel bestätigt hat.',
    law_not_known: 'Die Fütterungsregel deines Landes ist hier nicht bekannt.',
    law_prohibited: 'Die Fütterungsregel deines Landes verbietet es.',
    law_not_allowed: 'Die Leitung hat diesen Tieren nicht erlaubt, was in der Küche geschnitten wurde.',
    animal_matter: 'Darin ist Fleisch, Fisch oder Ähnliches.',
  },
  put_by: {
    unsure:
      'Niemand konnte sagen, was daran ist, also wird es nicht haltbar gemacht: dieser Eintrag wurde nicht angenommen.',
    spoilt:
      'Fäulnis oder Schimmel war daran oder an seinem Posten. Was ausgeschnitten ist, wird gekocht und bald gegessen, nie eingekocht, eingefroren, getrocknet oder vergoren: dieser Eintrag wurde nicht angenommen.',
    patulin:
      'Kein angeschlagenes, schimmliges oder faules Obst kommt in Glas, Gericht oder Getränk: sein Gift übersteht Hitze. Dieser Eintrag wurde nicht angenommen.',
    not_sound: 'Es war nicht gesund genug zum Haltbarmachen: dieser Eintrag wurde nicht angenommen.',
    not_known: 'Keine Tabelle spricht davon in diesem Zustand, also wird es nicht haltbar gemacht.',
  },
  codes: {
    role: 'Diese Person darf so einen Eintrag nicht schreiben. Eine andere darf es.',
    needs_switch: 'Diese Person darf das schreiben, sobald die Leitung es für sie eingeschaltet hat.',
    not_theirs_to_judge: 'Das entscheiden Kinder und Vertretungen nicht: einem Erwachsenen zeigen.',
    accident_by_grown: 'Einen Unfall schreibt ein Erwachsener: zeig es einem.',
    parent_refused: 'Er hängt an einem anderen Eintrag, der nicht genommen wurde. Erst jenen ausbessern.',
    unknown_reference: 'Er nennt etwas, das der Haushalt nicht (mehr) hat.',
    person_not_here: 'Diese Person steht nicht auf der Liste dieses Telefons.',
    minder_ended: 'Die Zeit der Vertretung ist vorbei.',
    erased: 'Die Familie hat diesen Eintrag für immer gelöscht.',
    id_reused: 'Unter seinem Namen steht ein anderer Eintrag.',
    duplicate: 'Er war schon geschrieben.',
    not_for_them:
      'Das ist nichts für sie: Es braucht ein anderes Alter oder etwas, worum sie nicht gebeten werden.',
    last_keeper: 'Jemand muss die Leitung behalten. Erst eine andere Person dazu machen.',
    other_household: 'Er gehört zu einem anderen Haushalt.',
    eggs_held:
      'Die Eier dieser Tiere werden zurückgehalten: Sie sind kein Essen bis zu dem Tag, den Etikett oder Tierarzt nannten.',
    outbreak:
      'Eine Vogelseuche ist in der Nähe: kleine Kinder bleiben vom Auslauf weg. Das macht jemand Großes.',
    pail_barred:
      'Diese Tiere bekommen jetzt keine Reste: was im Eimer war, ist Kompost. Haben sie es doch bekommen, schreibt jemand Großes das Versehen unter Reste.',
    kin_of_bed:
      'Der Haufen nahm eine Krankheit auf, die im Boden weiterlebt, und auf diesem Beet wachsen ihre Verwandten. Liegt er schon dort, schreibt es jemand Großes auf der Seite des Haufens.',
    bed_crop_missing:
      'Der Haufen nahm eine Krankheit auf, die im Boden weiterlebt. Auf der Seite des Haufens neu schreiben, mit dem, was auf dem Beet wachsen soll.',
    material_unknown: 'Davon ist auf einem Haufen nichts bekannt.',
    too_large: 'Er ist zu groß zum Senden.',
  },
  other: (message) => `Der Server hat ihn nicht genommen. Er sagt auf Englisch: ${message}`,
} satisfies RefusalWords;
