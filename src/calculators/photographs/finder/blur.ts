import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Picture } from '../../../sheet/schema';

/** How far a picture moved while it was taken, by its own edges. */
export interface PictureBlur {
  readonly pictureId: string;
  /** Length of the smear, pixels. */
  readonly widthPx: number;
  /** Its direction, rad, 0 up to π, from level toward down on the right. */
  readonly direction: number;
  /** Edge width along the smear over that across it: about 1 is no motion. */
  readonly ratio: number;
}

interface Looked {
  readonly blur: PictureBlur | null;
  /** How many marks stood then. */
  readonly marks: number;
}

/** A picture's pixels never change under its id, so what was seen once holds while the page is open. */
const looked = new Map<string, Looked>();

/** How a picture is smeared; null while it is not known. */
export const blurOf = (pictureId: string): PictureBlur | null => looked.get(pictureId)?.blur ?? null;

/** With fewer marks the truck's own edges are not in view. */
const FEWEST_MARKS = 2;

/** The marks that lie on the truck: its outline and its rounds tell the blur, a string does not. */
const onTruck = ({ marks }: Picture) => marks.filter(({ role }) => !role.startsWith('string '));

/** Looks at the blur of the picture in hand once its marks say where the truck is; asks the host to draw again then. */
export class BlurWatch implements ReactiveController {
  #busy = '';

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#busy = '';
  }

  /** Call with the picture in hand and what is decoded of it. */
  look(picture: Picture, bitmap: ImageBitmap | null): void {
    const marks = onTruck(picture);
    const before = looked.get(picture.id);
    const known = before !== undefined && (before.blur !== null || before.marks >= marks.length);
    if (!bitmap || known || marks.length < FEWEST_MARKS || this.#busy !== '') return;
    this.#busy = picture.id;
    void this.#see(picture, bitmap);
  }

  async #see(picture: Picture, bitmap: ImageBitmap): Promise<void> {
    const { id: pictureId } = picture;
    const marks = onTruck(picture);
    let blur: PictureBlur | null = null;
    try {
      // Fetched when first needed: without a picture at hand there is nothing to read.
      const { blurAround } = await import('./readEdges');
      const seen = await blurAround({ bitmap, picture }, marks);
      if (seen.ok) {
        const { width, direction, ratio } = seen.value;
        blur = { pictureId, widthPx: width, direction, ratio };
      }
    } catch {
      // The bitmap was let go meanwhile, with the picture no longer in hand: asked again when it is.
      this.#busy = '';
      return;
    }
    looked.set(pictureId, { blur, marks: marks.length });
    this.#busy = '';
    if (blur) this.host.requestUpdate();
  }
}
