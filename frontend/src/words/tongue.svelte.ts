/** Which language and which units the screens speak. Everything that reads them here changes when they do. */
export const languages = ['en', 'de'] as const;
export type Language = (typeof languages)[number];

/** Where dates and digits come from. English days are written "4 January". */
const locales: Record<Language, string> = { en: 'en-GB', de: 'de-DE' };
const KEY = 'rounds.language';

export interface Manner {
  readonly weight: 'kg' | 'lb';
  readonly temp: 'C' | 'F';
  readonly length: 'cm' | 'in';
  /** 1 is Monday, as in ISO 8601. */
  readonly week_start: 1 | 6 | 7;
  /** IANA name; a day is a day there. Absent: the phone's own. */
  readonly zone: string | undefined;
}

const is_language = (told: string | null): told is Language => told === 'en' || told === 'de';

function first(): Language {
  const chosen = localStorage.getItem(KEY);
  if (is_language(chosen)) return chosen;
  return navigator.language.toLowerCase().startsWith('de') ? 'de' : 'en';
}

class Tongue {
  #language = $state<Language>(first());
  #manner = $state.raw<Manner>({ weight: 'kg', temp: 'C', length: 'cm', week_start: 1, zone: undefined });

  get language(): Language {
    return this.#language;
  }

  get locale(): string {
    return locales[this.#language];
  }

  get manner(): Manner {
    return this.#manner;
  }

  /** The phone's own choice; it stays on the phone. */
  speak(language: Language): void {
    localStorage.setItem(KEY, language);
    this.follow(language);
  }

  /** The household's language, unless the phone has chosen one. */
  follow(language: Language): void {
    const own = localStorage.getItem(KEY);
    this.#language = is_language(own) ? own : language;
    document.documentElement.lang = this.#language;
  }

  /** Units, week and zone follow the household. */
  keep(manner: Partial<Manner>): void {
    this.#manner = { ...this.#manner, ...manner };
  }
}

export const tongue = new Tongue();

/** The language that another window of this phone has just chosen, if it was that which it wrote. */
export const chosen_elsewhere = ({ key, newValue }: StorageEvent): Language | undefined =>
  key === KEY && is_language(newValue) ? newValue : undefined;

/**
 * The word list of one place: `en` is the type, `de` satisfies it. The result is read as `rounds_words().all_sound(30)` and
 * is reactive in templates and `$derived`.
 */
export const spoken =
  <List>(lists: Readonly<Record<Language, List>>) =>
  (): List =>
    lists[tongue.language];
