/** Telling screens, in this window and in others, what changed. */
import { is_object, is_text_list, type Json } from '../wire/json.ts';
import type { Channel } from './ports.ts';
import type { Change } from './shapes.ts';

const QUIET: Change = {
  lines: [],
  records: false,
  sheets: false,
  drafts: false,
  photos: false,
  tray: false,
  status: true,
};

export class Announcer {
  readonly #channel: Channel<Change>;
  readonly #listeners = new Set<(change: Change) => void>();

  constructor(channel: Channel<Change>) {
    this.#channel = channel;
    channel.listen((change) => this.#tell(change));
  }

  /** The counts of the status line may have changed with anything. */
  changed(what: Partial<Change>): void {
    const change = { ...QUIET, ...what };
    this.#tell(change);
    this.#channel.post(change);
  }

  subscribe(heard: (change: Change) => void): () => void {
    this.#listeners.add(heard);
    return () => this.#listeners.delete(heard);
  }

  #tell(change: Change): void {
    for (const heard of [...this.#listeners]) heard(change);
  }
}

/** What another window posted; undefined where it is of another build and says it differently. */
export function read_change(message: Json): Change | undefined {
  if (!is_object(message) || !is_text_list(message['lines'])) return undefined;
  const said = (name: keyof Change): boolean => message[name] === true;
  return {
    lines: message['lines'],
    records: said('records'),
    sheets: said('sheets'),
    drafts: said('drafts'),
    photos: said('photos'),
    tray: said('tray'),
    status: said('status'),
  };
}
