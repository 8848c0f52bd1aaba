import {
  cgByCarrier,
  crossings,
  errorEllipse,
  meetingPoint,
  meters,
  refusal,
  success,
  triangleOfLines,
} from '../physics';
import type {
  CompositeCg,
  Crossing,
  Estimate,
  Length,
  LineTriangle,
  MeetingPoint,
  Result,
  TruckTips,
} from '../physics';
import { partsList } from '../sheet/derived';
import { called } from '../sheet/givens';
import { hangNumber } from '../sheet/hangs';
import type { BuildState } from '../sheet/schema';
import { adjustPictures } from '../photo/adjustPictures';
import type { PictureAdjustment, Registration, Source } from '../photo/adjustPictures';
import { spatialCovariance, tipsOf } from './cgEstimate';
import type { CgEstimate } from './cgEstimate';
import { nextReading } from './nextReading';
import type { NextReading } from './nextReading';
import { plumbLines } from '../photo/plumbLines';
import type { JointLines, PlumbLine } from '../photo/plumbLines';
import { PHOTOGRAPHS_HREF, readState } from '../photo/readState';
import type { Missing, StateReadings } from '../photo/readState';
import { wrongMark } from '../photo/wrongMark';
import type { WrongMark } from '../photo/wrongMark';
import { warningsOf } from './warnings';
import type { Warning } from './warnings';

/**
 * The answer of one build state: from its pictures and scales to the center of gravity, how sure it is, the tip
 * angles that follow, and what to measure next. Every ± comes from one joint covariance of all that was read.
 */

/** A hang's line as the page shows it. */
export interface LineOfHang extends PlumbLine {
  /** Counted from 1 in the order of the pictures. */
  readonly n: number;
  /** Distance of the CG from this line, and over its own standard deviation; null where nothing checks it. */
  readonly misses: { readonly distance: Length; readonly normalized: number | null } | null;
}

export interface PictureCheck extends Registration {
  readonly pictureId: string;
  /** The body mark that is misplaced in this picture, where it is clear which one. */
  readonly worst: string | null;
}

/** What one kind of reading adds to the ±, as standard uncertainties. */
export interface BudgetRow {
  readonly source: Source | 'scales';
  readonly ahead: Length;
  readonly height: Length;
}

export interface Consistency {
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Chance of lines missing each other by this much or more if every ± is right. */
  readonly probability: number;
}

export interface BenchAnswer {
  readonly cg: Result<CgEstimate>;
  /** What is known even while the CG is not: from scales alone. */
  readonly known: { readonly ahead: Estimate<Length> | null; readonly left: Estimate<Length> | null };
  readonly lines: readonly LineOfHang[];
  /** The fore-aft line of axle or wheel scales, where they are given. */
  readonly foreAft: Estimate<Length> | null;
  readonly crossings: readonly Crossing[];
  readonly triangle: LineTriangle | null;
  readonly consistency: Consistency | null;
  readonly pictures: readonly PictureCheck[];
  readonly warnings: readonly Warning[];
  readonly tips: Result<TruckTips>;
  readonly partsListCg: CompositeCg | null;
  readonly budget: readonly BudgetRow[];
  readonly missing: readonly Missing[];
  readonly next: NextReading;
  /** For drawing on the pictures; null while they are not adjusted. */
  readonly adjusted: PictureAdjustment | null;
  readonly noseDirection: 1 | -1;
}

export interface AnswerOptions {
  /** An earlier answer to start the fit from, as while a mark is being dragged. */
  readonly from?: BenchAnswer;
}

const answers = new WeakMap<BuildState, BenchAnswer>();

/**
 * The answer of a build state; the same state object gives the same answer object without computing again.
 * Never throws on what a reader typed: what cannot be computed is a refusal with its reason.
 */
export function benchAnswer(state: BuildState, options: AnswerOptions = {}): BenchAnswer {
  const held = answers.get(state);
  if (held) return held;
  const fresh = compute(state, options);
  answers.set(state, fresh);
  return fresh;
}

function compute(state: BuildState, options: AnswerOptions): BenchAnswer {
  const readings = readState(state);
  const partsListCg = listCg(state);
  const base = {
    lines: [],
    crossings: [],
    triangle: null,
    consistency: null,
    pictures: [],
    budget: [],
    missing: readings.missing,
    partsListCg,
    foreAft: foreAftAt(readings, readings.wheelbase),
    known: {
      ahead: foreAftAt(readings, readings.wheelbase),
      left: readings.lateralFrom === 'assumed' ? null : readings.left,
    },
    adjusted: null,
    noseDirection: readings.truck?.noseDirection ?? 1,
  } as const;
  const refuse = (reason: string, message: string, more: Partial<BenchAnswer> = {}): BenchAnswer => {
    const refused = refusal(reason, message);
    const partial = { ...base, cg: refused, tips: refused, warnings: warningsOf(readings, null), ...more };
    return { ...partial, next: nextReading(state, readings, refused) };
  };

  const [fault] = readings.faults;
  if (fault) return refuse('fault', fault.message);
  const { truck, standing, hangs } = readings;
  const usable = hangs.length + (readings.foreAft ? 1 : 0);
  if (!truck || !standing || hangs.length === 0 || usable < 2) {
    return refuse('missing', stillNeeded(readings.missing, readings.otherSide.length > 0));
  }
  const before = options.from?.adjusted?.start;
  const near = before ? adjustPictures(truck, standing, hangs, { start: before }) : null;
  // What an earlier answer leads into need not be where the readings lead by themselves.
  const fitted = near?.ok ? near : adjustPictures(truck, standing, hangs);
  if (!fitted.ok) {
    const wrong = wrongMark(standing, hangs);
    return wrong ? refuse('wrong mark', wrongInWords(state, wrong)) : refuse(fitted.reason, fitted.message);
  }
  const lines = plumbLines(fitted.value, truck, hangs, readings.foreAft);
  if (!lines.ok) return refuse(lines.reason, lines.message);
  const joint = lines.value;
  const size = 2 * joint.lines.length;
  const lineCovariance = joint.covariance.slice(0, size).map((row) => row.slice(0, size));
  const meeting = meetingPoint(joint.lines, lineCovariance);
  const pictures = [...fitted.value.registrations].map(([pictureId, registration]) => ({
    ...registration,
    pictureId,
    worst: fitted.value.misplaced.get(pictureId)?.key ?? null,
  }));
  const foreAft = foreAftAt(readings, joint.wheelbase);
  const shown = {
    foreAft,
    lines: linesOf(joint, meeting.ok ? meeting.value : null),
    crossings: crossings(joint.lines),
    pictures,
    adjusted: fitted.value,
  };
  if (!meeting.ok) return refuse(meeting.reason, meeting.message, shown);

  const cgAndWheelbase = spatialCovariance(joint, meeting.value, readings);
  const pick = (order: readonly number[]) =>
    order.map((i) => order.map((j) => cgAndWheelbase[i]?.[j] ?? NaN));
  const covariance = pick([0, 1, 2]);
  const estimate = (value: Length, i: number): Estimate<Length> => ({
    value,
    u: Math.sqrt(covariance[i]?.[i] ?? NaN),
  });
  const cg: CgEstimate = {
    ahead: estimate(meeting.value.x, 0),
    left: estimate(joint.left.value, 1),
    height: estimate(meeting.value.z, 2),
    covariance,
    wheelbase: joint.wheelbase,
    jointCovariance: cgAndWheelbase,
    ellipse: errorEllipse(pick([0, 2])),
    lateralFrom: readings.lateralFrom,
  };
  // Three hangs, or two and the scales' line.
  const [first, second, third] = joint.lines;
  const triangle = first && second && third ? triangleOfLines([first, second, third]) : null;
  const { probability, chiSquared, degreesOfFreedom } = meeting.value;
  const solved = {
    ...base,
    ...shown,
    cg: success(cg),
    known: { ahead: cg.ahead, left: readings.lateralFrom === 'assumed' ? null : cg.left },
    triangle: triangle?.ok ? triangle.value : null,
    consistency: probability === null ? null : { chiSquared, degreesOfFreedom, probability },
    budget: budgetOf(fitted.value, joint, meeting.value, readings),
    tips: tipsOf(cg, cgAndWheelbase, joint, readings),
    noseDirection: truck.noseDirection,
  };
  const warnings = warningsOf(readings, solved);
  const next = nextReading(state, readings, { ...solved, cg, joint, meeting: meeting.value, cgAndWheelbase });
  // More readings do not mend a wrong one: a contradiction is looked at before anything new is hung or weighed.
  const unlikely = probability !== null && probability < UNLIKELY;
  const wrong =
    next.gain &&
    warnings.find(({ code }) => CONTRADICTIONS.has(code) && (unlikely || code !== 'lines disagree'));
  return {
    ...solved,
    warnings,
    next: wrong ? { text: lookAgain(state, wrong), href: PHOTOGRAPHS_HREF, gain: null } : next,
  };
}

/** One good bench in twenty has lines that disagree; the next step changes only where one in a hundred would. */
const UNLIKELY = 0.01;
const CONTRADICTIONS: ReadonlySet<Warning['code']> = new Set([
  'worst mark',
  'marks misfit',
  'lines disagree',
]);

function lookAgain(state: BuildState, { code, title, picture }: Warning): string {
  const name = picture === undefined ? '' : pictureName(state, picture);
  if (code === 'worst mark') return name ? `${title.replace(/\.$/, '')}, in ${name}.` : title;
  return `${title} Look again${name ? ` at ${name}` : ' at marks and hooks'} before you measure more.`;
}

/** A picture as the page calls it. */
function pictureName(state: BuildState, id: string): string {
  const number = hangNumber(state, id);
  return number === 0 ? 'the standing picture' : `hang ${number}`;
}

/** The scales' fore-aft place on a wheelbase as measured or, after a fit, as fitted. */
const foreAftAt = (
  { foreAft }: StateReadings,
  wheelbase: Estimate<Length> | null,
): Estimate<Length> | null =>
  foreAft && wheelbase
    ? {
        value: meters(foreAft.share * wheelbase.value),
        u: Math.hypot(foreAft.u * wheelbase.value, foreAft.share * wheelbase.u),
      }
    : null;

function stillNeeded(missing: readonly Missing[], otherSide: boolean): string {
  if (missing.length === 0) {
    return otherSide
      ? 'The hanging pictures show the other side of the truck than the standing one. Photograph both from one side.'
      : 'One line gives no point. Hang the truck from a second hook.';
  }
  const names = missing.slice(0, 3).map(({ what }) => what);
  const more = missing.length > 3 ? ` and ${missing.length - 3} more` : '';
  return `Still needed: ${names.join(', ')}${more}.`;
}

function wrongInWords(state: BuildState, { picture, key, off }: WrongMark): string {
  const shown = state.pictures.find(({ id }) => id === picture);
  const number = hangNumber(state, picture);
  const name = called(shown?.name ?? '', number === 0 ? 'Standing picture' : 'Hang', Math.max(0, number - 1));
  return key === null
    ? `${name}: needs its body marks on the same landmarks as the standing picture; they miss by about ${off.toFixed(0)} px. Look at each in the loupe.`
    : `${name}: needs mark ${key} on the same landmark as in the other pictures; it lies about ${off.toFixed(0)} px off. Look at it in the loupe.`;
}

function linesOf(joint: JointLines, meeting: MeetingPoint | null): LineOfHang[] {
  return joint.hangs.map((line, i) => {
    const residual = meeting?.residuals[i];
    return { ...line, n: i + 1, misses: residual ?? null };
  });
}

/** Standard uncertainty that each kind of reading brings into the CG, largest in height first. */
function budgetOf(
  fitted: PictureAdjustment,
  joint: JointLines,
  meeting: MeetingPoint,
  readings: StateReadings,
): BudgetRow[] {
  const unknowns = fitted.adjustment.unknowns.length;
  const shares = [0, 1].map((row) => {
    const gain = meeting.sensitivities[row] ?? [];
    const gradient = Array.from({ length: unknowns + 1 }, (_, k) =>
      gain.reduce((sum, g, i) => sum + g * (joint.sensitivities[i]?.[k] ?? 0), 0),
    );
    const totals = new Map<BudgetRow['source'], number>();
    fitted.adjustment.varianceShares(gradient.slice(0, unknowns)).forEach((variance, i) => {
      const source = fitted.sources[i];
      if (source) totals.set(source, (totals.get(source) ?? 0) + variance);
    });
    if (readings.foreAft) totals.set('scales', ((gradient[unknowns] ?? 0) * readings.foreAft.u) ** 2);
    return totals;
  });
  const [ahead, height] = shares;
  const sources = new Set([...(ahead?.keys() ?? []), ...(height?.keys() ?? [])]);
  return [...sources]
    .map((source) => ({
      source,
      ahead: meters(Math.sqrt(ahead?.get(source) ?? 0)),
      height: meters(Math.sqrt(height?.get(source) ?? 0)),
    }))
    .toSorted((a, b) => b.height - a.height);
}

function listCg(state: BuildState): CompositeCg | null {
  if (state.parts.length === 0) return null;
  const parts = partsList(state);
  if (!parts.ok) return null;
  const { whole } = cgByCarrier(
    parts.value.map(({ carrier, mass, ahead, left, height }) => ({
      carrier,
      mass,
      x: ahead,
      y: left,
      z: height,
    })),
  );
  return whole.ok ? whole.value : null;
}

export type { CgEstimate, Missing, NextReading, Warning };
