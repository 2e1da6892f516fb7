/** The household's phones, asked of the server when a page that shows them opens. */
import { list_phones, type Phone } from './server';

class Phones {
  list = $state.raw<readonly Phone[]>([]);
  /** The server has told them, at least once. */
  known = $state(false);
  asking = $state(false);

  async ask(): Promise<void> {
    this.asking = true;
    const told = await list_phones();
    this.asking = false;
    if (!told.ok) return;
    this.list = told.value;
    this.known = true;
  }
}

export const phones = new Phones();
