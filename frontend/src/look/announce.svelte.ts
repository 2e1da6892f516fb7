/** What a screen reader is told: one polite region for the whole app (`Announcer.svelte`). */
class Announcement {
  #text = $state('');
  get text(): string {
    return this.#text;
  }
  say(text: string): void {
    // The same sentence twice must be heard twice: an unseen blank makes it differ.
    this.#text = text === this.#text ? `${text}\u200a` : text;
  }
}

export const announcement = new Announcement();
export const announce = (text: string): void => announcement.say(text);
