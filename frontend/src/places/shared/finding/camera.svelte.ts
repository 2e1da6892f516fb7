/** The camera at the back of the phone, looked through until a code is read. Nothing is photographed or kept. */
import { code_reader } from './reader';

export type Eye = 'opening' | 'open' | 'refused' | 'none';

/** A look each so many ms: quick enough for a hand, slow enough for a battery. */
const LOOK_EVERY_MS = 120;

/** `torch` is of the W3C's Image Capture; the compiler's lists of the browser's parts do not have it. */
type Lamp = MediaTrackConstraintSet & { readonly torch: boolean };

export class Camera {
  eye = $state<Eye>('opening');
  /** The phone's own lamp can be lit. */
  has_lamp = $state(false);
  lamp_on = $state(false);
  #stream: MediaStream | undefined;
  #shut = false;

  /** Looks until `shut`; `seen` is told each text it reads. */
  async open(video: HTMLVideoElement, seen: (text: string) => void): Promise<void> {
    // Absent on a plain-http address, where browsers give no camera.
    const devices = navigator.mediaDevices as MediaDevices | undefined;
    if (!devices) {
      this.eye = 'none';
      return;
    }
    try {
      this.#stream = await devices.getUserMedia({ video: { facingMode: 'environment' }, audio: false });
    } catch (error) {
      this.eye = error instanceof DOMException && error.name === 'NotAllowedError' ? 'refused' : 'none';
      return;
    }
    if (this.#shut) return this.shut();
    video.srcObject = this.#stream;
    await video.play().catch(() => undefined);
    this.eye = 'open';
    const can = this.#track?.getCapabilities?.() as { readonly torch?: boolean } | undefined;
    this.has_lamp = can?.torch === true;
    await this.#look(video, seen);
  }

  async #look(video: HTMLVideoElement, seen: (text: string) => void): Promise<void> {
    const read = await code_reader();
    while (!this.#shut) {
      const text = await read(video);
      if (text !== undefined && !this.#shut) seen(text);
      await new Promise((done) => setTimeout(done, LOOK_EVERY_MS));
    }
  }

  get #track(): MediaStreamTrack | undefined {
    return this.#stream?.getVideoTracks()[0];
  }

  async turn_lamp(): Promise<void> {
    const torch: Lamp = { torch: !this.lamp_on };
    await this.#track?.applyConstraints({ advanced: [torch] });
    this.lamp_on = torch.torch;
  }

  shut(): void {
    this.#shut = true;
    for (const track of this.#stream?.getTracks() ?? []) track.stop();
    this.#stream = undefined;
  }
}
