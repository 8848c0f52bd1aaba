/** The picture intake without any page around it, to be timed. */
import { decodePicture } from '../../../src/photo/decode/index';

interface Timed {
  readonly ok: boolean;
  readonly message: string;
  readonly ms: number;
}

declare global {
  /** Decodes a small picture, so that the worker is there. */
  var warmUp: () => Promise<void>;
  /** Decodes the chosen file. */
  var decodeChosen: () => Promise<Timed>;
}

globalThis.warmUp = async () => {
  const blob = await new OffscreenCanvas(300, 300).convertToBlob({ type: 'image/png' }).catch(() => null);
  if (blob) await decodePicture(blob);
};

globalThis.decodeChosen = async () => {
  const file = document.querySelector('input')?.files?.[0];
  if (!file) throw new Error('no file chosen');
  const began = performance.now();
  const result = await decodePicture(file);
  return { ok: result.ok, message: result.ok ? '' : result.message, ms: performance.now() - began };
};
