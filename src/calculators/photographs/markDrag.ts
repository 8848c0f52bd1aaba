import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { batch } from '@preact/signals-core';
import { beginTrial, discardTrial, edit, trial, tryOut } from '../../sheet/bench';
import type { MarkRole } from '../../sheet/schema';
import { placeMark } from './edits';
import type { Place } from './surfaceView';

/** An answer that takes longer than two frames makes room for the mark between, ms. */
const SLOW = 33;

interface Dragged {
  readonly pictureId: string;
  readonly role: MarkRole;
  readonly place: Place;
}

/**
 * A mark being dragged: until it is let go its places are only tried, so that the answer follows and Escape costs
 * nothing; letting go keeps the last place as one step of undo.
 *
 * The sheet is tried at most once per frame; on a slow machine less often, so that between two answers the mark
 * itself still keeps up with the finger. `tried` is called after each trial, before any element draws.
 */
export class MarkDrag implements ReactiveController {
  #dragged: Dragged | null = null;
  #frame: number | undefined;
  #restUntil = 0;
  /** false where something else was being tried already: that trial is not this drag's to end. */
  #ownsTrial = false;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly tried: () => void,
  ) {
    host.addController(this);
  }

  hostDisconnected(): void {
    this.cancel();
  }

  get active(): boolean {
    return this.#dragged !== null;
  }

  /** The mark is now over `place`. */
  over(pictureId: string, role: MarkRole, place: Place): void {
    if (this.#dragged === null) {
      this.#ownsTrial = trial.peek() === null;
      beginTrial();
      this.host.requestUpdate();
    }
    this.#dragged = { pictureId, role, place };
    this.#frame ??= requestAnimationFrame(this.#follow);
  }

  /** The mark is let go at `place` and stays there. */
  drop(label: string, pictureId: string, role: MarkRole, place: Place): void {
    batch(() => {
      this.cancel();
      edit(label, placeMark(pictureId, role, place));
    });
  }

  /** The mark goes back to where it was. */
  cancel(): void {
    if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
    this.#frame = undefined;
    if (this.#dragged === null) return;
    this.#dragged = null;
    if (this.#ownsTrial) discardTrial();
    this.host.requestUpdate();
  }

  readonly #follow = (): void => {
    this.#frame = undefined;
    if (this.#dragged === null) return;
    const begun = performance.now();
    if (begun < this.#restUntil) {
      this.#frame = requestAnimationFrame(this.#follow);
      return;
    }
    const { pictureId, role, place } = this.#dragged;
    if (tryOut(placeMark(pictureId, role, place)).ok) this.tried();
    const now = performance.now();
    this.#restUntil = now - begun > SLOW ? now + (now - begun) / 2 : 0;
  };
}
