/** What the server allows this asker, before it belongs to a household. */
import { read_session } from './server';

class Session {
  known = $state(false);
  /** The invented household opens here without a code. */
  may_open_demo = $state(false);
  /** A household is made here without a key. */
  may_found = $state(false);

  async ask(): Promise<void> {
    const told = await read_session();
    if (!told.ok) return;
    this.may_open_demo = told.value.open_demo;
    this.may_found = told.value.found_household;
    this.known = true;
  }
}

export const session = new Session();
