// @vitest-environment node
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { list_built } from './worker.plugin.ts';

const made: string[] = [];
afterEach(() => made.splice(0).forEach((folder) => rmSync(folder, { recursive: true })));

function dist(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'dist-'));
  made.push(folder);
  mkdirSync(join(folder, 'assets'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

describe('the list of built files', () => {
  it('holds every file but the worker itself, and the page as /', () => {
    const folder = dist({
      'index.html': 'page',
      'sw.js': 'worker',
      'assets/a-1.js': 'a',
      'assets/a-1.js.map': '{}',
    });
    expect(list_built(folder).map((file) => file.url)).toEqual(['/', '/assets/a-1.js']);
  });

  it('changes with a byte of any file', () => {
    const before = list_built(dist({ 'index.html': 'page', 'light.js': 'a' }));
    const after = list_built(dist({ 'index.html': 'page', 'light.js': 'b' }));
    expect(before[0]).toEqual(after[0]);
    expect(before[1]?.url).toBe('/light.js');
    expect(before[1]?.revision).not.toBe(after[1]?.revision);
  });
});
