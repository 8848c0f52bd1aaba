import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { pictureBlob } from '../../sheet/bench';

/** A picture's file as the page uses it. */
export type ShelvedPicture =
  | { readonly kind: 'reading' }
  /** `bitmap` is null until the picture is in hand: a large one decoded takes tens of megabytes. */
  | { readonly kind: 'ready'; readonly url: string; readonly bitmap: ImageBitmap | null }
  /** The file is not in this browser: a sheet imported without pictures, or storage cleared. */
  | { readonly kind: 'missing' };

const READING: ShelvedPicture = { kind: 'reading' };
const MISSING: ShelvedPicture = { kind: 'missing' };
/** The picture in hand and the one before it, so that going to and fro between two costs nothing. */
const DECODED_AT_ONCE = 2;

interface Shelved {
  shown: ShelvedPicture;
  blob: Blob | null;
  decoding: boolean;
}

/**
 * The pictures of the open sheet: files are read when first asked for, decoded when taken in hand, and let go when
 * the host leaves the page or another sheet is opened. Asks the host to draw again when one is ready.
 */
export class PictureShelf implements ReactiveController {
  #pictures = new Map<string, Shelved>();
  #sheetId = '';
  /** Decoded pictures, the one in hand last. */
  #inHand: string[] = [];

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected(): void {
    this.host.requestUpdate();
  }

  hostDisconnected(): void {
    this.#clear();
  }

  /** The picture's file for a small view of it. */
  picture(sheetId: string, pictureId: string): ShelvedPicture {
    return this.#shelved(sheetId, pictureId).shown;
  }

  /** The picture taken in hand: decoded as soon as it is read. */
  takeInHand(sheetId: string, pictureId: string): ShelvedPicture {
    const shelved = this.#shelved(sheetId, pictureId);
    if (this.#inHand.at(-1) !== pictureId) {
      this.#inHand = [...this.#inHand.filter((id) => id !== pictureId), pictureId];
      for (const id of this.#inHand.splice(0, this.#inHand.length - DECODED_AT_ONCE)) this.#forgetBitmap(id);
    }
    if (shelved.shown.kind === 'ready' && !shelved.shown.bitmap) void this.#decode(pictureId, shelved);
    return shelved.shown;
  }

  #shelved(sheetId: string, pictureId: string): Shelved {
    if (sheetId !== this.#sheetId) {
      this.#clear();
      this.#sheetId = sheetId;
    }
    const known = this.#pictures.get(pictureId);
    if (known) return known;
    const fresh: Shelved = { shown: READING, blob: null, decoding: false };
    this.#pictures.set(pictureId, fresh);
    void this.#read(pictureId, fresh);
    return fresh;
  }

  /** false once the shelf was cleared for another sheet while a file was still being read. */
  #holds = (pictureId: string, shelved: Shelved): boolean => this.#pictures.get(pictureId) === shelved;

  async #read(pictureId: string, shelved: Shelved): Promise<void> {
    const blob = await pictureBlob(pictureId).catch(() => undefined);
    if (!this.#holds(pictureId, shelved)) return;
    shelved.blob = blob ?? null;
    shelved.shown = blob ? { kind: 'ready', url: URL.createObjectURL(blob), bitmap: null } : MISSING;
    this.host.requestUpdate();
  }

  async #decode(pictureId: string, shelved: Shelved): Promise<void> {
    if (shelved.decoding || !shelved.blob) return;
    shelved.decoding = true;
    try {
      const bitmap = await createImageBitmap(shelved.blob);
      const { shown } = shelved;
      if (shown.kind === 'ready' && this.#holds(pictureId, shelved) && this.#inHand.includes(pictureId))
        shelved.shown = { ...shown, bitmap };
      else bitmap.close();
    } catch {
      // A file that cannot be decoded any more is as good as missing.
      shelved.shown = MISSING;
    }
    shelved.decoding = false;
    this.host.requestUpdate();
  }

  #forgetBitmap(pictureId: string): void {
    const shelved = this.#pictures.get(pictureId);
    if (shelved?.shown.kind !== 'ready') return;
    shelved.shown.bitmap?.close();
    shelved.shown = { ...shelved.shown, bitmap: null };
  }

  #clear(): void {
    for (const { shown } of this.#pictures.values()) {
      if (shown.kind !== 'ready') continue;
      shown.bitmap?.close();
      URL.revokeObjectURL(shown.url);
    }
    this.#pictures = new Map();
    this.#inHand = [];
    this.#sheetId = '';
  }
}
