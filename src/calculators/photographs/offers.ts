import type { BuildState, Picture } from '../../sheet/schema';
import { offerFor, type Offer } from './offeredMarks';

/**
 * What the page remembers of offered marks while it is open: which picture was marked last, and where the reader
 * would rather mark without them.
 */
export class Offers {
  /** Ids of pictures, the one marked last first. */
  #recent: readonly string[] = [];
  readonly #declined = new Set<string>();

  /** What is offered for a picture; null where nothing is, or where the reader wants none. */
  of(state: BuildState, picture: Picture): Offer | null {
    return this.#declined.has(picture.id) ? null : offerFor(state, picture, this.#recent);
  }

  /** A mark was placed or moved in this picture. */
  marked(pictureId: string): void {
    if (this.#recent[0] !== pictureId)
      this.#recent = [pictureId, ...this.#recent.filter((id) => id !== pictureId)];
  }

  /** The reader marks this picture without help. */
  decline(pictureId: string): void {
    this.#declined.add(pictureId);
  }
}
