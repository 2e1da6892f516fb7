/** What is unfinished survives a reload: a running round, a half-filled form, pictures taken for it. */
import type { Deps } from './deps.ts';
import { drop_photo } from './photo_names.ts';
import type { Draft } from './shapes.ts';
import { utc_text } from './times.ts';

export const put_draft =
  (deps: Deps) =>
  async (draft: Omit<Draft, 'changed_at'>): Promise<Draft> => {
    const row = { ...draft, changed_at: utc_text(deps.clock.now()) };
    await deps.store.write(['drafts'], (tx) => tx.put('drafts', row), 'firm');
    return row;
  };

/** Pictures that no line names go with it. */
export const drop_draft =
  (deps: Deps) =>
  async (id: string): Promise<void> =>
    deps.store.write(['drafts', 'photos', 'pictures'], async (tx) => {
      await tx.delete('drafts', id);
      for (const photo of await tx.all('photos')) {
        if (photo.draft === id && photo.named_by.length === 0) await drop_photo(tx, photo.hash);
      }
    });
