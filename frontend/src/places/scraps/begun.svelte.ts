/** Scraps begun in the form and turned away: what the accident's page writes, and what the form opens with again. */
import type { Form } from './writing';

interface Begun {
  readonly form: Form;
  readonly grams: number;
}

class BegunScraps {
  refused = $state.raw<Begun | undefined>();
}

export const begun = new BegunScraps();
