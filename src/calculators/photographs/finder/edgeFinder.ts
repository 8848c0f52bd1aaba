import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { edit, kept } from '../../../sheet/bench';
import type { BuildState, Mark, MarkRole, Picture } from '../../../sheet/schema';
import { inPicture, openStateOf } from '../edits';
import { roleName } from '../roles';
import { lower } from '../words';
import {
  findingOf,
  foundMark,
  isMeant,
  marksOf,
  mayTake,
  ownMarks,
  refusedBefore,
  sameMarks,
  standingOfFinding,
  type Finding,
  type FindingOf,
  type Standing,
} from './finding';
import { findingWords } from './findingWords';

/** How a mark came to its place: put or let go by pointer, or moved in steps, which are not overruled. */
export type MovedBy = 'pointer' | 'steps';

/** Steps in a row are one move; what the edges say is looked up once they have stopped, ms. */
const STEPS_PAUSE = 500;
/** Looking that takes longer is shown, ms. */
const SHOWN_FROM = 300;

/** What the finder needs of the calculator. */
export interface FinderNeeds {
  /** The decoded picture; null where it is not in hand. */
  readonly bitmapOf: (pictureId: string) => ImageBitmap | null;
  /** Picture pixels per millimeter at the truck; null while unknown. */
  readonly pixelsPerMm: (picture: Picture) => number | null;
  /** Says something to screen readers. */
  readonly say: (words: string) => void;
}

/** Take what is sure; only offer it; or take it and tell also why nothing is sure. */
type Purpose = 'take' | 'offer' | 'asked';

const keyOf = ({ pictureId, of }: Pick<Finding, 'pictureId' | 'of'>): string => `${pictureId} ${of}`;

const keptPicture = (pictureId: string): { readonly state: BuildState; readonly picture: Picture } | null => {
  const state = openStateOf(kept.peek());
  const picture = state?.pictures.find(({ id }) => id === pictureId);
  return state && picture ? { state, picture } : null;
};

/**
 * Lets the picture's own edges place the marks: the string along its two marks, and rounds under body marks and hubs.
 *
 * A mark put or let go by pointer moves onto what is surely there, as a step of undo of its own, and goes back by one
 * press; a mark moved in steps stays where the reader has it, and what was found is offered. Nothing is ever looked
 * for again by itself until the reader moves the mark again. Kept for as long as the page is open.
 */
export class EdgeFinder implements ReactiveController {
  /** false: marks move by themselves no more; the reader may still ask. */
  #allowed = true;
  readonly #findings = new Map<string, Finding>();
  /** Questions under way that have lasted long enough to be shown, and the latest one for each mark. */
  readonly #looking = new Set<string>();
  readonly #latest = new Map<string, symbol>();
  #pause: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly needs: FinderNeeds,
  ) {
    host.addController(this);
  }

  hostDisconnected(): void {
    clearTimeout(this.#pause);
    this.#latest.clear();
    this.#looking.clear();
  }

  get allowed(): boolean {
    return this.#allowed;
  }

  set allowed(allowed: boolean) {
    this.#allowed = allowed;
    clearTimeout(this.#pause);
    this.host.requestUpdate();
  }

  /** What was found in a picture and still holds for its marks as they are. */
  of(picture: Picture): readonly Finding[] {
    return [...this.#findings.values()].filter(
      (finding) => finding.pictureId === picture.id && standingOfFinding(finding, picture) !== null,
    );
  }

  /** Whether it is being looked for just now, and has been for a moment. */
  looksFor(pictureId: string, of: FindingOf): boolean {
    return this.#looking.has(keyOf({ pictureId, of }));
  }

  /** Call after a mark came to a place of the sheet. */
  moved(pictureId: string, role: MarkRole, by: MovedBy): void {
    clearTimeout(this.#pause);
    const of = findingOf(role);
    if (!this.#allowed || of === null) return;
    // Whatever is still being looked for was for another place.
    this.#latest.delete(keyOf({ pictureId, of }));
    if (by === 'pointer') void this.#look(pictureId, of, 'take');
    else this.#pause = setTimeout(() => void this.#look(pictureId, of, 'offer'), STEPS_PAUSE);
  }

  /** The reader asks for the string or the round at a mark: it is taken where it is sure, and told where it is not. */
  ask(pictureId: string, role: MarkRole): void {
    clearTimeout(this.#pause);
    const of = findingOf(role);
    if (of !== null) void this.#look(pictureId, of, 'asked');
  }

  /** The marks go where the edges have them. */
  take(finding: Finding): void {
    this.#put(finding, finding.placed, this.#label(finding));
    this.#keep({ ...finding, refused: false });
    this.#tell(finding, 'taken');
  }

  /** The marks go back to where the reader had them, and stay. */
  keepOwn(finding: Finding): void {
    const string = finding.of === 'string';
    this.#put(finding, finding.own, string ? 'Keep my own marks' : 'Keep my own mark');
    this.#keep({ ...finding, refused: true });
    this.needs.say(string ? 'Your own marks stand again.' : 'Your own mark stands again.');
  }

  async #look(pictureId: string, of: FindingOf, purpose: Purpose): Promise<void> {
    const asked = keptPicture(pictureId);
    const before = asked && marksOf(asked.picture, of);
    if (!asked || !before) return;
    const key = keyOf({ pictureId, of });
    const question = Symbol(key);
    this.#latest.set(key, question);
    const shown = setTimeout(() => {
      this.#looking.add(key);
      this.host.requestUpdate();
    }, SHOWN_FROM);
    const earlier = this.#findings.get(key);
    // A picture let go while it was asked answers nothing.
    const found = await this.#found(asked.picture, of, before, ownMarks(before, earlier)).catch(() => null);
    clearTimeout(shown);
    if (this.#looking.delete(key)) this.host.requestUpdate();
    // The reader may have gone on meanwhile: an answer to a mark that stands elsewhere now is none.
    const now = keptPicture(pictureId);
    const marks = now && marksOf(now.picture, of);
    if (!found || this.#latest.get(key) !== question || !marks || !sameMarks(marks, before)) return;
    this.#answer(found, earlier, purpose);
  }

  #answer(found: Finding, earlier: Finding | undefined, purpose: Purpose): void {
    const none = found.shape === null ? found.of !== 'string' : !isMeant(found);
    if (none && purpose !== 'asked') {
      // Most marks are no stickers: that none was found under one is told only to a reader who asks.
      this.#findings.delete(keyOf(found));
      this.host.requestUpdate();
      return;
    }
    const refused = purpose === 'take' && refusedBefore(found, earlier);
    this.#keep({ ...found, refused });
    if (found.shape === null) {
      if (purpose !== 'offer') this.#tell(found, 'unsure');
    } else if (purpose === 'asked' || (purpose === 'take' && !refused && this.#mayTake(found)))
      this.take(found);
    else this.#tell(found, 'offered');
  }

  #mayTake(found: Finding): boolean {
    const now = keptPicture(found.pictureId);
    return mayTake(found, now ? this.needs.pixelsPerMm(now.picture) : null);
  }

  async #found(
    picture: Picture,
    of: FindingOf,
    before: readonly Mark[],
    own: readonly Mark[],
  ): Promise<Finding | null> {
    const bitmap = this.needs.bitmapOf(picture.id);
    const [first, second] = before;
    if (!bitmap || !first) return null;
    const readable = { bitmap, picture };
    // Fetched when first needed: most visits only look at what is marked.
    const { roundAt, stringAt } = await import('./readEdges');
    const base = { pictureId: picture.id, of, own, before, refused: false } as const;
    const unsure = (message: string): Finding => ({ ...base, placed: [], shape: null, unsure: message });
    if (of === 'string') {
      if (!second) return null;
      const string = await stringAt(readable, first, second);
      if (!string.ok) return unsure(string.message);
      const { upper, lower: below, u } = string.value;
      const placed = [
        foundMark(first.role, upper, u[0], first.counted),
        foundMark(second.role, below, u[1], second.counted),
      ];
      return { ...base, placed, shape: { kind: 'string', string: string.value }, unsure: '' };
    }
    const round = await roundAt(readable, first);
    if (!round.ok) return unsure(round.message);
    const placed = [foundMark(of, round.value.center, round.value.u, first.counted)];
    return { ...base, placed, shape: { kind: 'round', round: round.value }, unsure: '' };
  }

  #keep(finding: Finding): void {
    this.#findings.set(keyOf(finding), finding);
    this.host.requestUpdate();
  }

  #put({ pictureId }: Finding, marks: readonly Mark[], label: string): void {
    edit(
      label,
      inPicture(pictureId, (picture) => {
        for (const placed of marks) {
          const mark = picture.marks.find(({ role }) => role === placed.role);
          if (mark) Object.assign(mark, placed, { counted: mark.counted });
        }
      }),
    );
  }

  #label({ pictureId, of }: Finding): string {
    if (of === 'string') return 'Take the string found';
    const now = keptPicture(pictureId);
    return `Snap ${now ? lower(roleName(now.state, now.picture, of)) : 'a mark'} to its round`;
  }

  #tell(finding: Finding, standing: Standing): void {
    const now = keptPicture(finding.pictureId);
    const { lead, rest } = findingWords(finding, standing, now ? this.needs.pixelsPerMm(now.picture) : null);
    this.needs.say(`${lead} ${rest}`);
  }
}
