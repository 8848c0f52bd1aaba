import { COVERAGE } from '../../../physics';
import type { FoundRound, FoundString } from '../../../photo/find';
import type { Mark, MarkRole, Picture } from '../../../sheet/schema';
import { rounded, type Place } from '../surfaceView';

/**
 * What the picture's edges say of marks that the reader placed: where they belong, and where the reader had them.
 * Places are pixels of the full-size upright picture.
 */
export interface Finding {
  readonly pictureId: string;
  readonly of: FindingOf;
  /** The marks as the reader set them: what "Keep my own marks" brings back. */
  readonly own: readonly Mark[];
  /** The marks as they stood when the picture was asked. */
  readonly before: readonly Mark[];
  /** The same marks where the edges have them, each with its ±; empty where nothing is sure. */
  readonly placed: readonly Mark[];
  readonly shape: FoundShape | null;
  /** Why nothing is sure; '' where something is. */
  readonly unsure: string;
  /** true once the reader has kept their own marks against this. */
  readonly refused: boolean;
}

/** 'string' for the string's two marks, else the role of the mark on a round. */
export type FindingOf = MarkRole;

export type FoundShape =
  | { readonly kind: 'string'; readonly string: FoundString }
  | { readonly kind: 'round'; readonly round: FoundRound };

export const STRING_ROLES = ['string upper', 'string lower'] as const satisfies readonly MarkRole[];

/** Marks that may sit on a round sticker or a round of the truck's own. */
export const isRoundRole = (role: MarkRole): boolean =>
  /^mark |^(front|rear) hub$|^scale [12]$|^base [12]$/.test(role);

/** What may be found for a mark; null for points that are neither string nor round. */
export const findingOf = (role: MarkRole): FindingOf | null =>
  role === 'string upper' || role === 'string lower' ? 'string' : isRoundRole(role) ? role : null;

/** A picture's marks by these roles, in their order; null unless all stand. */
export function marksOf(picture: Picture, of: FindingOf): readonly Mark[] | null {
  const roles: readonly MarkRole[] = of === 'string' ? STRING_ROLES : [of];
  const marks = roles.flatMap((role) => picture.marks.filter((mark) => mark.role === role));
  return marks.length === roles.length ? marks : null;
}

/** A found place as a mark: 1.96 u as its ±, up to the next tenth of a pixel. */
export function foundMark(role: MarkRole, place: Place, u: number, counted: boolean): Mark {
  return { role, ...rounded(place), plusMinus: plusMinusOf(u), counted, source: 'found' };
}

/** 1.96 u in pixels, rounded up to a tenth: "0.2". */
export const plusMinusOf = (u: number): string =>
  (Math.max(1, Math.ceil(COVERAGE * u * 10 - 1e-9)) / 10).toFixed(1);

const sameMark = (a: Mark | undefined, b: Mark | undefined): boolean =>
  a !== undefined && b !== undefined && a.x === b.x && a.y === b.y && a.source === b.source;
/** Whether marks stand where they stood, and by the same hand. */
export const sameMarks = (a: readonly Mark[], b: readonly Mark[]): boolean =>
  a.length === b.length && a.every((mark, index) => sameMark(mark, b[index]));

/**
 * How a finding stands with the marks as they are: 'taken' where the edges have them, 'offered' where the reader has
 * them, 'unsure' where the edges say nothing, null where the marks have gone elsewhere since and it no longer holds.
 */
export type Standing = 'taken' | 'offered' | 'unsure';
export function standingOfFinding(finding: Finding, picture: Picture): Standing | null {
  const now = marksOf(picture, finding.of);
  if (!now) return null;
  if (finding.placed.length > 0 && sameMarks(now, finding.placed)) return 'taken';
  if (!sameMarks(now, finding.own) && !sameMarks(now, finding.before)) return null;
  return finding.placed.length > 0 ? 'offered' : 'unsure';
}

/**
 * The reader's own places of the marks as they are now: a mark that an earlier finding moved goes back to where the
 * reader had it.
 */
export function ownMarks(now: readonly Mark[], earlier: Finding | undefined): readonly Mark[] {
  return now.map((mark) => {
    const index = earlier?.placed.findIndex((placed) => sameMark(placed, mark)) ?? -1;
    return (index < 0 ? undefined : earlier?.own[index]) ?? mark;
  });
}

/** How far a place lies from what was found, pixels: across a string, from the center of a round. */
function apart(shape: FoundShape, { x, y }: Place): number {
  if (shape.kind === 'round') return Math.hypot(x - shape.round.center.x, y - shape.round.center.y);
  const { upper, lower } = shape.string;
  const [dx, dy] = [lower.x - upper.x, lower.y - upper.y];
  return Math.abs(dx * (y - upper.y) - dy * (x - upper.x)) / (Math.hypot(dx, dy) || 1);
}

/** How far what was found lies from each of the reader's own marks, pixels; empty where nothing was. */
export const misses = ({ own, shape }: Finding): readonly number[] =>
  shape ? own.map((mark) => apart(shape, mark)) : [];

/** Nearer than this two findings are the same string or round; pixels. */
const SAME = 1.5;

/** Whether the reader has refused before what this finding says again. */
export function refusedBefore({ placed }: Finding, earlier: Finding | undefined): boolean {
  const shape = earlier?.refused === true ? earlier.shape : null;
  return shape !== null && placed.length > 0 && placed.every((mark) => apart(shape, mark) < SAME);
}

/** A press this near the center means it, pixels, or this part of the round's width. */
const NEAR_CENTER = { pixels: 8, part: 0.35 } as const;
/** Stickers are smaller than this, mm; seen so large that they would be larger than that from close by, pixels. */
const LARGEST_STICKER = { mm: 30, pixels: 120 } as const;
/** A cap or a nut is at the hub; what is wider is the rim or the tire, whose middle lies nearer the camera, mm. */
const LARGEST_AT_HUB = 20;

/** Whether the reader can have meant what was found: a string, or a round pressed near its center. */
export function isMeant(finding: Finding): boolean {
  if (finding.shape?.kind !== 'round') return true;
  const [off = 0] = misses(finding);
  return off <= Math.max(NEAR_CENTER.pixels, NEAR_CENTER.part * finding.shape.round.diameter);
}

/**
 * Whether a mark may move onto what was found without being asked. A string may; a round only where it is clear that
 * the reader meant its center: a wheel is a round as well, but not one that a body mark is meant for.
 */
export function mayTake(finding: Finding, pixelsPerMm: number | null): boolean {
  const { shape, of } = finding;
  if (shape?.kind !== 'round') return true;
  if (!isMeant(finding)) return false;
  const { diameter } = shape.round;
  const mm = pixelsPerMm === null ? null : diameter / pixelsPerMm;
  if (of.endsWith(' hub')) return mm !== null && mm <= LARGEST_AT_HUB;
  return mm === null ? diameter <= LARGEST_STICKER.pixels : mm <= LARGEST_STICKER.mm;
}
