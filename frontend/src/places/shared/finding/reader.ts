/**
 * Reading QR codes off a picture: by the browser's own BarcodeDetector where it has one (W3C Shape Detection), else by
 * jsQR, fetched when a camera is first opened and precached like every part.
 */

/** The text of a code in the picture, if there is one. Pictures come again and again; none is kept. */
export type Reader = (picture: HTMLVideoElement) => Promise<string | undefined>;

interface Detector {
  detect(picture: HTMLVideoElement): Promise<readonly { readonly rawValue: string }[]>;
}
interface DetectorKind {
  new (asked: { formats: string[] }): Detector;
  getSupportedFormats(): Promise<readonly string[]>;
}

const native_kind = (): DetectorKind | undefined =>
  (globalThis as { readonly BarcodeDetector?: DetectorKind }).BarcodeDetector;

/** Longer side of the picture jsQR looks at, in px: a code of 40 px or more is still read, in some 30 ms. */
const LOOKED_AT = 720;

export async function code_reader(): Promise<Reader> {
  const kind = native_kind();
  const formats = await kind?.getSupportedFormats().catch((): readonly string[] => []);
  return kind && formats?.includes('qr_code') ? native_reader(new kind({ formats: ['qr_code'] })) : fetched();
}

const native_reader =
  (detector: Detector): Reader =>
  async (picture) =>
    (await detector.detect(picture).catch((): readonly { rawValue: string }[] => []))[0]?.rawValue;

async function fetched(): Promise<Reader> {
  const { default: jsqr } = await import('jsqr');
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  return async (picture) => {
    const { videoWidth, videoHeight } = picture;
    if (!pen || videoWidth === 0) return undefined;
    const scale = Math.min(1, LOOKED_AT / Math.max(videoWidth, videoHeight));
    canvas.width = Math.round(videoWidth * scale);
    canvas.height = Math.round(videoHeight * scale);
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const { data, width, height } = pen.getImageData(0, 0, canvas.width, canvas.height);
    return jsqr(data, width, height, { inversionAttempts: 'dontInvert' })?.data || undefined;
  };
}
