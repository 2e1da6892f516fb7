import { describe, expect, it } from 'vitest';
import { chosen_elsewhere } from './tongue.svelte';

const written = (key: string, newValue: string | null) => new StorageEvent('storage', { key, newValue });

describe('a language chosen in another window', () => {
  it('is told when it is one the app speaks', () => {
    expect(chosen_elsewhere(written('rounds.language', 'de'))).toBe('de');
  });

  it('is none when something else was written, or it was taken back', () => {
    expect(chosen_elsewhere(written('rounds.light', 'de'))).toBeUndefined();
    expect(chosen_elsewhere(written('rounds.language', 'fr'))).toBeUndefined();
    expect(chosen_elsewhere(written('rounds.language', null))).toBeUndefined();
  });
});
