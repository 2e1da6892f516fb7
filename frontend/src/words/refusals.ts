import { refusals_de } from './refusals.de';
import { refusals_en } from './refusals.en';
import { spoken } from './tongue.svelte';

const refusal_words = spoken({ en: refusals_en, de: refusals_de });

interface Refused {
  readonly code: string;
  readonly message: string;
  readonly facts: Readonly<Record<string, unknown>>;
}

/** Why an entry was not taken, in the language spoken; a code without words of its own has the server's sentence. */
export function why_refused({ code, message, facts }: Refused): string {
  const words = refusal_words();
  const reason = typeof facts['reason'] === 'string' ? facts['reason'] : '';
  const by_reason = { never: words.reasons, not_to_put_by: words.put_by }[code];
  return (by_reason ? by_reason[reason] : words.codes[code]) ?? words.other(message);
}
