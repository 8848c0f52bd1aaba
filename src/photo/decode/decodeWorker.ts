import { expose } from 'comlink';
import type { Decoder } from './protocol';
import { offscreenEasel, reducePicture } from './reducePicture';

const decoder: Decoder = { decode: (file, progress) => reducePicture(file, offscreenEasel, progress) };
expose(decoder);
