import { refusal, type Refusal } from '../../physics/index';
import type { PictureReason } from './protocol';

export const broken = (): Refusal<PictureReason> =>
  refusal(
    'broken',
    'Picture: needs a whole picture; this file is damaged or cut short. Copy it to this device again, or take the picture again.',
  );

/** The file was moved, or its place in the cloud cannot be reached. */
export const unreadable = (): Refusal<PictureReason> =>
  refusal(
    'broken',
    'Picture: needs a file that can be read; this one could not be opened. Copy it to this device, then choose it again.',
  );

export const noMemory = (): Refusal<PictureReason> =>
  refusal(
    'no-memory',
    'Picture: needs more memory than this device has free; it could not be reduced. Close other pages, or take the picture at a lower resolution.',
  );

export const noAvif = (): Refusal<PictureReason> =>
  refusal(
    'not-in-this-browser',
    'Picture: needs a kind of picture that this browser reads; this is AVIF, which it does not. Open it in a picture program and save it as JPEG, or use a newer browser.',
  );

export const stopped = (): Refusal<PictureReason> =>
  refusal('stopped', 'Picture: needs to be read to its end; reading was stopped. Choose it again.');
