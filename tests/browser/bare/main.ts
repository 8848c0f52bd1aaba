/** The bench and the picture intake without any page around them, for tests in a real browser. */
import { decodePicture } from '../../../src/photo/decode/index';
import * as bench from '../../../src/sheet/bench';

declare global {
  interface Window {
    plumb: { readonly bench: typeof bench; readonly decodePicture: typeof decodePicture };
  }
}

window.plumb = { bench, decodePicture };
