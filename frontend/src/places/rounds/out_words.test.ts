import { describe, expect, test } from 'vitest';
import { takeUp, type Going } from './lotstep';
import { writesWords } from './out_words';

const writes = (...goings: Going[]): string => writesWords({ ...takeUp('lot', { whole: true }), goings });

describe('the key of a lot with some out', () => {
  test('says how many go where', () => {
    expect(
      writes(
        { finding: 'soft_rot', way: 'out', pieces: 2, to: 'compost' },
        { finding: 'sprouting', way: 'out', pieces: 1, to: 'cook' },
      ),
    ).toBe('2 to compost, 1 to cook');
  });
  test('says sums where every place would not stand on it', () => {
    expect(
      writes(
        { finding: 'soft_rot', way: 'out', pieces: 2, to: 'compost' },
        { finding: 'yellow', way: 'trim', pieces: 3, to: 'compost' },
        { finding: 'sprouting', way: 'trim', pieces: 1, to: 'raw' },
      ),
    ).toBe('2 out, 4 trimmed');
  });
});
