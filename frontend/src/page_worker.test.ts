import { afterEach, describe, expect, it, vi } from 'vitest';
import { something_typed, survive_missing_parts } from './page_worker';

afterEach(() => {
  sessionStorage.clear();
  document.body.replaceChildren();
  vi.restoreAllMocks();
});

function missing_part(): { readonly event: Event; readonly reload: ReturnType<typeof vi.fn> } {
  const reload = vi.fn();
  vi.spyOn(window.location, 'reload').mockImplementation(reload);
  const event = new Event('vite:preloadError', { cancelable: true });
  window.dispatchEvent(event);
  return { event, reload };
}

describe('a part of the build that is gone', () => {
  it('hazard 25: loads the page anew, once, and not over what was typed or without a network', () => {
    let unsaved = true;
    survive_missing_parts(() => unsaved);
    expect(missing_part().reload).not.toHaveBeenCalled();
    unsaved = false;
    const online = vi.spyOn(navigator, 'onLine', 'get').mockReturnValue(false);
    expect(missing_part().reload).not.toHaveBeenCalled();
    online.mockReturnValue(true);
    const first = missing_part();
    expect(first.reload).toHaveBeenCalledOnce();
    expect(first.event.defaultPrevented).toBe(true);
    vi.restoreAllMocks();
    expect(missing_part().reload).not.toHaveBeenCalled();
  });

  it('something typed is a field that holds more than it was given', () => {
    document.body.innerHTML = '<input value="as given"><textarea></textarea>';
    expect(something_typed()).toBe(false);
    const [field] = document.querySelectorAll('textarea');
    if (field) field.value = 'soft at the neck';
    expect(something_typed()).toBe(true);
  });
});
