/** Lantern or daylight. Follows the phone until a person chooses; `public/light.js` sets the first paint. */
export type Light = 'lantern' | 'daylight';
const KEY = 'rounds.light';

class LightSwitch {
  #now = $state<Light>(document.documentElement.dataset['light'] === 'lantern' ? 'lantern' : 'daylight');

  constructor() {
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', (dark) => {
      if (localStorage.getItem(KEY) === null) this.#show(dark.matches ? 'lantern' : 'daylight');
    });
  }

  get now(): Light {
    return this.#now;
  }

  turn(): void {
    const next: Light = this.#now === 'lantern' ? 'daylight' : 'lantern';
    localStorage.setItem(KEY, next);
    this.#show(next);
  }

  #show(next: Light): void {
    this.#now = next;
    document.documentElement.dataset['light'] = next;
    const ground = getComputedStyle(document.documentElement).getPropertyValue('--ground').trim();
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', ground);
  }
}

export const light = new LightSwitch();
