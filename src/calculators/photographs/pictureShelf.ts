import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { pictureBlob } from '../../sheet/bench';

/** A picture's file as the page uses it. */
export type ShelvedPicture =
  | { readonly kind: 'reading' }
  | { readonly kind: 'ready'; readonly bitmap: ImageBitmap; readonly url: string }
  /** The file is not in this browser: a sheet imported without pictures, or storage cleared. */
  | { readonly kind: 'missing' };

const READING: ShelvedPicture = { kind: 'reading' };

/**
 * The decoded pictures of the open sheet, read when first asked for and let go when the host leaves the page or
 * another sheet is opened. Asks the host to draw again when one is ready.
 */
export class PictureShelf implements ReactiveController {
  readonly #pictures = new Map<string, ShelvedPicture>();
  #sheetId = '';

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected(): void {
    this.host.requestUpdate();
  }

  hostDisconnected(): void {
    this.#clear();
  }

  /** The picture, or 'reading' while it is fetched and decoded. */
  picture(sheetId: string, pictureId: string): ShelvedPicture {
    if (sheetId !== this.#sheetId) {
      this.#clear();
      this.#sheetId = sheetId;
    }
    const known = this.#pictures.get(pictureId);
    if (known) return known;
    this.#pictures.set(pictureId, READING);
    void this.#read(sheetId, pictureId);
    return READING;
  }

  /** Forgets that a picture was missing, so that it is looked for again. */
  retry(pictureId: string): void {
    if (this.#pictures.get(pictureId)?.kind === 'missing') this.#pictures.delete(pictureId);
    this.host.requestUpdate();
  }

  async #read(sheetId: string, pictureId: string): Promise<void> {
    let picture: ShelvedPicture = { kind: 'missing' };
    try {
      const blob = await pictureBlob(pictureId);
      if (blob) {
        const bitmap = await createImageBitmap(blob);
        picture = { kind: 'ready', bitmap, url: URL.createObjectURL(blob) };
      }
    } catch {
      // A file that cannot be decoded is as good as missing: the reader is asked for it again.
    }
    if (this.#sheetId !== sheetId || this.#pictures.get(pictureId) !== READING) {
      release(picture);
      return;
    }
    this.#pictures.set(pictureId, picture);
    this.host.requestUpdate();
  }

  #clear(): void {
    for (const picture of this.#pictures.values()) release(picture);
    this.#pictures.clear();
    this.#sheetId = '';
  }
}

function release(picture: ShelvedPicture): void {
  if (picture.kind !== 'ready') return;
  picture.bitmap.close();
  URL.revokeObjectURL(picture.url);
}
