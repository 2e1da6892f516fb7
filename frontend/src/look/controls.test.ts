import { fireEvent, render, screen, within } from '@testing-library/svelte';
import { createRawSnippet, tick } from 'svelte';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { tongue } from '../words';
import Choice from './Choice.svelte';
import Dial from './Dial.svelte';
import Key from './Key.svelte';
import LadderChoice from './LadderChoice.svelte';
import LadderMark from './LadderMark.svelte';
import Sheet from './Sheet.svelte';
import Stepper from './Stepper.svelte';
import Tick from './Tick.svelte';
import Ticks from './Ticks.svelte';

const wording = (html: string) => createRawSnippet(() => ({ render: () => `<span>${html}</span>` }));
const button = (name: string | RegExp) => screen.getByRole('button', { name });
async function touch(element: Element): Promise<void> {
  await fireEvent.pointerDown(element, { button: 0 });
  await fireEvent.pointerUp(element, { button: 0 });
}

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  tongue.follow('en');
});
afterEach(() => vi.useRealTimers());

describe('a stepper', () => {
  test('is a named group with a named key at each end', async () => {
    const onset = vi.fn();
    render(Stepper, { name: 'Looked at', value: 30, onset });
    const group = screen.getByRole('group', { name: 'Looked at' });
    await touch(within(group).getByRole('button', { name: 'Looked at, one more' }));
    expect(onset).toHaveBeenLastCalledWith(31);
    await touch(button('Looked at, one less'));
    expect(onset).toHaveBeenLastCalledWith(30);
  });

  test('says where it came to rest', async () => {
    render(Stepper, { name: 'Weighed', value: 24, step: 0.5, unit: 'kg' });
    await touch(button('Weighed, one more'));
    expect(screen.getByRole('status').textContent).toBe('Weighed, 24.5 kg');
  });

  test('the number can be touched and typed, with a comma', async () => {
    const onset = vi.fn();
    render(Stepper, { name: 'Weighed', value: 24, step: 0.5, onset });
    await fireEvent.click(button(/Touch to type/));
    const field = screen.getByRole('textbox', { name: 'Weighed' });
    await fireEvent.input(field, { target: { value: '18,4' } });
    await fireEvent.keyDown(field, { key: 'Enter' });
    expect(onset).toHaveBeenLastCalledWith(18.4);
    expect(button('Weighed, 18.4. Touch to type')).toBeTruthy();
  });

  test('what is no number leaves the value as it was', async () => {
    const onset = vi.fn();
    render(Stepper, { name: 'Weighed', value: 24, onset });
    await fireEvent.click(button(/Touch to type/));
    const field = screen.getByRole('textbox');
    await fireEvent.input(field, { target: { value: 'heavy' } });
    await fireEvent.keyDown(field, { key: 'Enter' });
    expect(onset).not.toHaveBeenCalled();
    expect(button('Weighed, 24. Touch to type')).toBeTruthy();
  });

  test('the keyboard steps it once a press', async () => {
    const onset = vi.fn();
    render(Stepper, { name: 'Hens', value: 8, onset });
    await fireEvent.click(button('Hens, one more'), { detail: 0 });
    expect(onset.mock.calls).toEqual([[9]]);
  });
});

describe('a dial', () => {
  test('unread is not a reading', () => {
    const onset = vi.fn();
    render(Dial, { name: 'Warmest', unit: '°C', last: 4, onset });
    expect(onset).not.toHaveBeenCalled();
    expect(button('Warmest was 4 °C. Touch if it is the same').getAttribute('aria-pressed')).toBe('false');
    expect(screen.getByText('was 4')).toBeTruthy();
  });

  test('touched it is read as the same', async () => {
    const onset = vi.fn();
    render(Dial, { name: 'Damp', unit: '%', last: 93, step: 1, onset });
    await fireEvent.click(button(/Touch if it is the same/));
    expect(onset).toHaveBeenCalledWith(93);
    expect(button('Damp, 93 %, the same').getAttribute('aria-pressed')).toBe('true');
  });

  test('either end reads it as changed', async () => {
    const onset = vi.fn();
    render(Dial, { name: 'Warmth', unit: '°C', last: 2, onset });
    await touch(button('Warmth, one more'));
    expect(onset).toHaveBeenCalledWith(2.5);
    expect(screen.getByText('read')).toBeTruthy();
  });

  test('never read before, it can be typed', async () => {
    const onset = vi.fn();
    render(Dial, { name: 'Coldest', unit: '°C', onset });
    await fireEvent.click(button('Coldest, – °C, not read'));
    const field = screen.getByRole('textbox', { name: 'Coldest' });
    await fireEvent.input(field, { target: { value: '−0,5' } });
    await fireEvent.blur(field);
    expect(onset).toHaveBeenCalledWith(-0.5);
  });
});

describe('keys, ticks and choices', () => {
  test('a key acts once for a touch that bounces', async () => {
    const onpress = vi.fn();
    render(Key, { children: wording('Keep'), onpress });
    await fireEvent.click(button('Keep'));
    await fireEvent.click(button('Keep'));
    expect(onpress).toHaveBeenCalledTimes(1);
  });

  test('a key that leads somewhere is a link', () => {
    render(Key, { children: wording('Put away'), href: '#/store/put-away' });
    expect(screen.getByRole('link', { name: 'Put away' }).getAttribute('href')).toBe('#/store/put-away');
  });

  test('a tick tells whether it is set', async () => {
    render(Tick, { children: wording('white wool') });
    await fireEvent.click(button('white wool'));
    expect(button('white wool').getAttribute('aria-pressed')).toBe('true');
  });

  test('of single ticks one stays chosen', async () => {
    const onset = vi.fn();
    const rows = [
      { key: 'eat', word: 'to eat' },
      { key: 'seed', word: 'for seed' },
    ] as const;
    render(Ticks, { label: 'What for', rows, chosen: ['eat'], single: true, always: true, onset });
    await fireEvent.click(button('for seed'));
    expect(onset).toHaveBeenLastCalledWith(['seed']);
    vi.advanceTimersByTime(400);
    await fireEvent.click(button('for seed'));
    expect(onset).toHaveBeenLastCalledWith(['seed']);
  });

  test('a choice is a radio with its words', async () => {
    const onset = vi.fn();
    render(Choice, {
      name: 'so',
      value: 'compost',
      title: 'It went to the compost',
      soft: 'Strikes this out',
      onset,
    });
    await fireEvent.click(screen.getByRole('radio', { name: /It went to the compost/ }));
    expect(onset).toHaveBeenCalledWith('compost');
  });
});

describe('the ladder', () => {
  const rows = [
    { step: 'raw', offered: false, reason: 'not with mould' },
    { step: 'cook', offered: true },
    { step: 'compost', offered: true },
  ] as const;

  test('as a form offers only what may be, and says why not for the rest', async () => {
    const onset = vi.fn();
    render(LadderChoice, { name: 'goes', legend: 'Where the 2 go', rows, value: 'cook', count: '2', onset });
    expect(screen.getByRole('group', { name: 'Where the 2 go' })).toBeTruthy();
    expect(screen.getAllByRole('radio')).toHaveLength(2);
    expect(screen.getByText(/not with mould/)).toBeTruthy();
    await fireEvent.click(screen.getByRole('radio', { name: 'Compost' }));
    expect(onset).toHaveBeenCalledWith('compost');
  });

  test('the mark breaks the rungs above and stands out on its own', () => {
    const { container } = render(LadderMark, { step: 'pot' });
    const drawn = [...container.querySelectorAll('path')].map((path) => path.getAttribute('d'));
    expect(drawn).toHaveLength(7);
    expect(drawn[3]).toBe('M0 16.5h26');
    expect(drawn[1]).toContain('h-3.2');
  });

  test('a crop that begins at cook has no raw rung', () => {
    const { container } = render(LadderMark, { step: 'cook', from: 'cook' });
    expect(container.querySelectorAll('path')).toHaveLength(6);
  });
});

describe('a sheet', () => {
  test('opens as a named dialog with focus on its heading, and closes', async () => {
    const onclose = vi.fn();
    const { rerender } = render(Sheet, {
      title: 'All gone',
      open: true,
      children: wording('where to'),
      onclose,
    });
    await tick();
    await tick();
    const dialog = screen.getByRole('dialog', { name: 'All gone' });
    expect(dialog.hasAttribute('open')).toBe(true);
    expect(document.activeElement?.textContent).toBe('All gone');
    await rerender({ open: false });
    await tick();
    expect(dialog.hasAttribute('open')).toBe(false);
  });
});
