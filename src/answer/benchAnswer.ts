import {
  COVERAGE,
  PLANE_COVERAGE,
  adjustTruck,
  angleIn,
  blunderSearch,
  degrees,
  findBlunder,
  distanceToLine,
  lengthIn,
  meters,
  refusal,
  success,
  truckTipAngles,
  VIEW_AXES,
  uprightLine,
} from '../physics';
import type {
  BlunderSearch,
  CompositeCg,
  Crossing,
  Estimate,
  Length,
  LineTriangle,
  Refusal,
  Result,
  TruckAdjustment,
  TruckBench,
  TruckReading,
  TruckStance,
  TruckTips,
} from '../physics';
import type { PictureAdjustment } from '../photo/fit/adjustPictures';
import type { JointLines, PlumbLine } from '../photo/plumbLines';
import { missingWithHangs, readState } from '../photo/readState';
import type { Missing, StateReadings } from '../photo/readState';
import type { BuildState } from '../sheet/schema';
import { baseTips, type BaseTip } from './baseTips';
import { budgetOf, type BudgetRow } from './budget';
import { cgEstimate, tellsLateral } from './cgEstimate';
import type { CgEstimate } from './cgEstimate';
import { groupTitles } from './disagreement';
import { scalesAlone, stanceOf } from './methods';
import { nextReading } from './nextReading';
import type { NextReading } from './nextReading';
import { crossingsOf, readPictures } from './pictureLines';
import type { LineOfHang, PictureCheck, PicturesRead } from './pictureLines';
import { readBench } from './readBench';
import type { BenchAsRead, ReadingEntry } from './readBench';
import { warningsOf } from './warnings';
import type { Warning } from './warnings';

/**
 * The answer of one build state: all its readings adjusted together to one center of gravity, how sure it is, the tip
 * angles that follow, what is wrong with it, and what to measure next.
 */

export interface Consistency {
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Chance of readings missing each other by this much or more if every ± is right. */
  readonly probability: number;
}

export interface BenchAnswer {
  readonly cg: Result<CgEstimate>;
  /** What is known even while the CG is not. */
  readonly known: { readonly ahead: Estimate<Length> | null; readonly left: Estimate<Length> | null };
  /** Of hangs seen from a side, in the side plane. */
  readonly lines: readonly LineOfHang[];
  /** Of hangs seen from the rear, the front or the top, each in the plane of its own view. */
  readonly otherLines: readonly LineOfHang[];
  /** The fore-aft place that axle or wheel scales alone give. */
  readonly foreAft: Estimate<Length> | null;
  readonly crossings: readonly Crossing[];
  readonly triangle: LineTriangle | null;
  /** Of all readings together; null where none is more than needed. */
  readonly consistency: Consistency | null;
  readonly pictures: readonly PictureCheck[];
  readonly warnings: readonly Warning[];
  /** The truck on its contacts, with the covariance of everything that decides how it tips. */
  readonly stance: Result<TruckStance>;
  readonly tips: Result<TruckTips>;
  /** Of an object whose base is marked: how far it leans over each end of it before it tips; else null. */
  readonly baseTips: readonly BaseTip[] | null;
  readonly partsListCg: CompositeCg | null;
  readonly budget: readonly BudgetRow[];
  readonly missing: readonly Missing[];
  readonly next: NextReading;
  /** Every reading of the sheet but the pictures, and whether it counts. */
  readonly entries: readonly ReadingEntry[];
  /** What was adjusted, and how; null where nothing could be. */
  readonly bench: TruckBench;
  readonly joint: TruckAdjustment | null;
  readonly blunder: BlunderSearch | null;
  /** For drawing on the pictures; null while they are not adjusted. */
  readonly adjusted: PictureAdjustment | null;
  readonly plumbLines: JointLines | null;
  readonly noseDirection: 1 | -1;
}

export interface AnswerOptions {
  /** An earlier answer to start the fit from, as while a mark is being dragged. */
  readonly from?: BenchAnswer;
  /** While something is dragged: a wrong reading is looked for to first order only, which takes no time. */
  readonly quick?: boolean;
}

const answers = new WeakMap<BuildState, BenchAnswer>();
const quickAnswers = new WeakMap<BuildState, BenchAnswer>();

/**
 * The answer of a build state; the same state object gives the same answer object without computing again.
 * Never throws on what a reader typed: what cannot be computed is a refusal with its reason.
 */
export function benchAnswer(state: BuildState, options: AnswerOptions = {}): BenchAnswer {
  const held = answers.get(state) ?? (options.quick ? quickAnswers.get(state) : undefined);
  if (held) return held;
  const fresh = compute(state, options);
  (options.quick ? quickAnswers : answers).set(state, fresh);
  return fresh;
}

/** What the parts of an answer are made from. */
export interface Computed {
  readonly state: BuildState;
  readonly readings: StateReadings;
  readonly pictures: PicturesRead;
  readonly read: BenchAsRead;
}

function compute(state: BuildState, { from, quick = false }: AnswerOptions): BenchAnswer {
  const readings = readState(state);
  const [pictureFault] = readings.faults;
  const pictures: PicturesRead = readPictures(state, readings, from?.adjusted ?? null, quick);
  const read = readBench(state, pictures.reading);
  const parts: Computed = { state, readings, pictures, read };
  const fault = pictureFault?.message ?? read.faults[0];
  if (fault !== undefined) return refused(parts, null, refusal('fault', fault));
  const adjusted = adjustTruck(read.bench, from?.joint ? { from: from.joint } : {});
  if (!adjusted.ok) {
    const blunder = quick ? null : findBlunder(read.bench, adjusted);
    return refused(parts, null, contradictory(state, blunder) ?? adjusted, blunder);
  }
  const joint = adjusted.value;
  const axes = state.body === 'object' ? 'own' : 'truck';
  const cg = unsure(parts, joint) ?? cgEstimate(joint, read.bench.readings, axes);
  if (!cg.ok) {
    if (pictures.refused) return refused(parts, joint, pictures.refused);
    const missing = missingOf(parts, joint);
    if (cg.reason !== 'undetermined') return refused(parts, joint, cg);
    const message =
      missing.length > 0
        ? stillNeeded(missing)
        : readings.otherSide.length > 0
          ? 'The hanging pictures show the other side of the truck than the standing one. Photograph both from one side.'
          : (allSetAside(parts) ?? cg.message);
    return refused(parts, joint, refusal('missing', message));
  }
  const base = shown(parts, joint);
  const stance =
    state.body === 'object'
      ? refusal('object', 'An object without wheels: mark the two ends of its base for its tip angles.')
      : standing(joint, read);
  const { probability, chiSquared, degreesOfFreedom } = joint;
  const solved = {
    ...base,
    cg,
    baseTips: baseTips(state, pictures.adjusted, cg.value),
    stance,
    tips: stance.ok ? truckTipAngles(stance.value, read.treadWidth?.value ?? null) : stance,
    consistency: probability === null ? null : { chiSquared, degreesOfFreedom, probability },
    blunder: quick ? blunderSearch(joint) : findBlunder(read.bench, adjusted),
    budget: budgetOf(joint, pictures, kindsOf(read.bench)),
  };
  const warnings = warningsOf(parts, solved);
  return { ...solved, warnings, next: nextReading(parts, { ...solved, warnings }) };
}

/** Readings so far apart that no truck comes near them all: the one that is most likely wrong, by name. */
function contradictory(state: BuildState, blunder: BlunderSearch | null): Refusal | null {
  if (!blunder?.named) return null;
  const [title = ''] = groupTitles(state, blunder.named.group);
  return refusal(
    'contradiction',
    `${title} does not fit the other readings: no ${state.body} comes near them all. Look at its numbers and units, or set it aside.`,
  );
}

/** What is shown whether or not there is a center of gravity. */
function shown(parts: Computed, joint: TruckAdjustment | null) {
  const { readings, pictures, read } = parts;
  const scales = scalesAlone(read.bench);
  const foreAft = scales && { value: meters(scales.value), u: scales.u };
  const hangs = pictures.joint?.hangs ?? [];
  const sides = hangs.filter(({ view }) => view === 'side');
  const lines = [...sides.map(({ line }) => line), ...(foreAft ? [uprightLine(foreAft.value)] : [])];
  const withMiss = (line: PlumbLine, i: number): LineOfHang => {
    const [first, second] = VIEW_AXES[line.view].map((axis) => joint?.cg[axis]?.value);
    const number = joint?.numbers().find(({ id }) => id === line.pictureId);
    const known = first !== undefined && second !== undefined && number !== undefined;
    const misses = known
      ? {
          distance: distanceToLine(line.line, { x: meters(first), z: meters(second) }),
          normalized: number.normalized,
        }
      : null;
    return { ...line, n: i + 1, misses };
  };
  return {
    known: {
      ahead: joint?.cg.x ?? null,
      left: joint && tellsLateral(read.bench.readings) ? joint.cg.y : null,
    },
    lines: sides.map(withMiss),
    otherLines: hangs.filter(({ view }) => view !== 'side').map(withMiss),
    foreAft,
    ...crossingsOf(lines),
    pictures: pictures.checks,
    partsListCg: read.partsListCg,
    missing: missingOf(parts, joint),
    entries: read.entries,
    bench: read.bench,
    joint,
    adjusted: pictures.adjusted,
    plumbLines: pictures.joint,
    noseDirection: readings.noseDirection,
  } as const;
}

function refused(
  parts: Computed,
  joint: TruckAdjustment | null,
  why: Refusal,
  blunder: BlunderSearch | null = null,
): BenchAnswer {
  const answer = {
    ...shown(parts, joint),
    cg: why,
    stance: why,
    tips: why,
    baseTips: null,
    consistency: null,
    blunder,
    budget: [],
  };
  const warnings = warningsOf(parts, answer);
  return { ...answer, warnings, next: nextReading(parts, { ...answer, warnings }) };
}

/** Kind of every reading by its id; lines of pictures by the ids of their hangs. */
function kindsOf({ readings }: TruckBench): ReadonlyMap<string, TruckReading['kind']> {
  const kinds = new Map<string, TruckReading['kind']>();
  for (const reading of readings) {
    kinds.set(reading.id, reading.kind);
    if (reading.kind === 'picture lines') for (const { id } of reading.lines) kinds.set(id, reading.kind);
  }
  return kinds;
}

function standing(joint: TruckAdjustment, { bench }: BenchAsRead): Result<TruckStance> {
  const stance = stanceOf(joint);
  if (stance) return success(stance);
  const { frontTrack, rearTrack } = bench.dimensions;
  const which = frontTrack ? 'rear track' : rearTrack ? 'front track' : 'front and rear track';
  return refusal(
    'missing',
    joint.wheelbase
      ? `Still needed for the tip angles: the ${which}, tire center to tire center.`
      : 'Still needed for the tip angles: the wheelbase, hub to hub.',
  );
}

/** The 95 % region may be this long, as a part of the wheelbase; beyond it first order no longer tells the truth. */
const LONGEST_REGION = 1 / 3;

/** From here on lines that show nothing do so for another reason than how they cross. */
const CROSSES = degrees(30);

/**
 * Two hangs or more whose lines hardly cross, where no other reading tells where along them the CG lies; or that cross
 * well, but each of them lies anywhere.
 */
function unsure(
  { state: { body }, pictures: { joint: lines } }: Computed,
  joint: TruckAdjustment,
): Refusal<'nearly-parallel' | 'unsure'> | null {
  const sides = (lines?.hangs ?? []).filter(({ view }) => view === 'side');
  const [widest] = crossingsOf(sides.map(({ line }) => line)).crossings;
  if (!widest) return null;
  const { x, z } = joint.cg;
  const wheelbase = joint.wheelbase?.value ?? 0.3;
  if (x && z && PLANE_COVERAGE * Math.hypot(x.u, z.u) < LONGEST_REGION * wheelbase) return null;
  const angle = angleIn(widest.angle, 'deg').toFixed(1);
  if (x && z && widest.angle > CROSSES) {
    const size = lengthIn(meters(COVERAGE * Math.hypot(x.u, z.u)), 'mm').toFixed(0);
    return refusal(
      'unsure',
      `The lines cross at ${angle}°, but each is so unsure that they show where only to ± ${size} mm. Look for a mark on the wrong thing, and mark more of the string and the body.`,
    );
  }
  return refusal(
    'nearly-parallel',
    `The lines cross at only ${angle}°, too nearly parallel to show where they meet. Hang the ${body} from a hook farther from the first.`,
  );
}

/**
 * What the pictures still lack. Without an answer they are the way to one: a line more than what is known asks for.
 * With one, only pictures that were begun are to be finished.
 */
function missingOf(parts: Computed, joint: TruckAdjustment | null): readonly Missing[] {
  const { state, readings, read } = parts;
  if (allSetAside(parts) !== null) return [];
  const known = joint && joint.undetermined.length === 0;
  const pictured = state.pictures.some(({ counted }) => counted);
  if (known) return pictured ? readings.missing : [];
  // Who began with scales or a board is not sent to the camera: the further reading that helps most is told instead.
  if (!pictured && read.bench.readings.length > 0) return [];
  return missingWithHangs(readings, joint?.cg.x ? 1 : 2);
}

/** Why there is nothing to adjust where the reader set everything aside. */
function allSetAside({ state, read }: Computed): string | null {
  const pictures = state.pictures.filter(({ kind }) => kind === 'hanging');
  const aside =
    pictures.filter(({ counted }) => !counted).length +
    state.readings.filter(({ counted }) => !counted).length;
  if (read.bench.readings.length > 0 || aside === 0 || aside < pictures.length + state.readings.length)
    return null;
  return aside === 1
    ? 'You set the only reading aside. Count it again, or measure anew.'
    : `You set all ${aside} readings aside. Count one again, or measure anew.`;
}

function stillNeeded(missing: readonly Missing[]): string {
  const names = missing.slice(0, 3).map(({ what }) => what);
  const more = missing.length > 3 ? ` and ${missing.length - 3} more` : '';
  return `Still needed: ${names.join(', ')}${more}.`;
}

export type { BudgetRow, CgEstimate, LineOfHang, Missing, NextReading, PictureCheck, Warning };
