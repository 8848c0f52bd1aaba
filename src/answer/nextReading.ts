import { COVERAGE, angleIn, kilograms, lengthIn, meters, radians, uncertaintyFromLimits } from '../physics';
import type { MeetingPoint, Refusal, TruckTips } from '../physics';
import { FIELDS } from '../sheet/fields';
import { readGiven } from '../sheet/given';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import { tipsOf } from './cgEstimate';
import type { CgEstimate } from './cgEstimate';
import type { JointLines } from '../photo/plumbLines';
import { PHOTOGRAPHS_HREF, TRUCK_HREF } from '../photo/readState';
import type { StateReadings } from '../photo/readState';

/** What to do next on the bench, and what it buys. */
export interface NextReading {
  readonly text: string;
  readonly href: string;
  /** Standard uncertainty of the weaker side tip angle (rad) or, without tracks, of the height (m), now and then. */
  readonly gain: { readonly of: 'side tip' | 'height'; readonly now: number; readonly then: number } | null;
}

/** Kitchen scales show steps that are wrong by 5 g at most. */
const SCALE_LIMITS = kilograms(0.005);
/** A small trail truck's mass while none is known. */
const USUAL_MASS = kilograms(3);

/** What to do after refusals whose message tells only what is wrong. */
const AFTER_REFUSAL: Readonly<Record<string, string>> = {
  'not-converged': 'Look for a mark on the wrong thing, or a picture tied to the wrong hook.',
  undetermined: 'Place the marks that are still open.',
  'marks coincide': 'Move the marks that lie on one point apart.',
};

type Solved = Pick<BenchAnswer, 'tips' | 'lines'> & {
  readonly cg: CgEstimate;
  readonly joint: JointLines;
  readonly meeting: MeetingPoint;
  /** CG ahead, left, height and wheelbase (m²). */
  readonly cgAndWheelbase: readonly (readonly number[])[];
};

/**
 * The first missing reading; without an answer, what its refusal asks for; with one, the next line or weighing, its
 * gain computed by adding that reading to the answer's own covariance.
 */
export function nextReading(
  state: BuildState,
  readings: StateReadings,
  solved: Solved | Refusal,
): NextReading {
  const [fault] = readings.faults;
  if (fault) return { text: fault.message, href: fault.href, gain: null };
  const [missing] = readings.missing;
  if (missing) return { text: `Still needed: ${missing.what}.`, href: missing.href, gain: null };
  if ('reason' in solved) {
    const text = AFTER_REFUSAL[solved.reason] ?? solved.message;
    return { text, href: PHOTOGRAPHS_HREF, gain: null };
  }
  if (!readings.frontTrack || !readings.rearTrack) {
    const which = readings.frontTrack
      ? 'the rear track'
      : readings.rearTrack
        ? 'the front track'
        : 'both tracks';
    return {
      text: `Measure ${which}, tire center to tire center: the tip angles need it.`,
      href: TRUCK_HREF,
      gain: null,
    };
  }
  const { cg } = solved;
  const numberOfHangs = solved.lines.length;
  if (numberOfHangs >= 3 && readings.lateralFrom === 'assumed') {
    const then = withReading(solved.cgAndWheelbase, [0, 1, 0, 0], wheelScalesU(readings));
    return withGain('Weigh the wheels one by one', TRUCK_HREF, cg, then, solved, readings);
  }
  const line = bestLine(state, solved, cg);
  const ordinal = ['first', 'second', 'third', 'fourth', 'fifth'][numberOfHangs];
  const hang = `Hang it ${ordinal ? `a ${ordinal} time` : 'once more'}${line.from}`;
  return withGain(hang, PHOTOGRAPHS_HREF, cg, line.covariance, solved, readings);
}

/** u of the lateral place that a scale under each wheel gives: half a track over the mass, for each of four loads. */
function wheelScalesU({ frontTrack, rearTrack, mass }: StateReadings): number {
  const halfTracks = [frontTrack, frontTrack, rearTrack, rearTrack].map((track) => (track?.value ?? 0) / 2);
  return (uncertaintyFromLimits(SCALE_LIMITS) * Math.hypot(...halfTracks)) / (mass?.value ?? USUAL_MASS);
}

/** Covariance after one more reading hᵀ·(ahead, left, height, wheelbase) of standard uncertainty u (JCGM 102:2011, 7). */
function withReading(
  covariance: readonly (readonly number[])[],
  h: readonly number[],
  u: number,
): number[][] {
  const along = covariance.map((row) => row.reduce((sum, value, j) => sum + value * (h[j] ?? 0), 0));
  const variance = along.reduce((sum, value, i) => sum + value * (h[i] ?? 0), 0) + u * u;
  return covariance.map((row, i) =>
    row.map((value, j) => value - ((along[i] ?? 0) * (along[j] ?? 0)) / variance),
  );
}

/** Directions tried for a hook that is not on the sheet yet, over half a turn. */
const DIRECTIONS = 36;

/** The further line that helps the height most: through a ruled hook not hung from yet, else from wherever it helps. */
function bestLine(state: BuildState, solved: Solved, cg: CgEstimate) {
  const used = new Set(solved.lines.map(({ hookId }) => hookId));
  const spread = typicalSpread(solved);
  const heightAfter = (covariance: readonly (readonly number[])[]) => covariance[2]?.[2] ?? Infinity;
  let best: { covariance: number[][]; from: string } | null = null;
  for (const hook of state.hooks) {
    if (used.has(hook.id) || hook.carrier !== 'body') continue;
    const ahead = readGiven(hook.ahead, FIELDS.hookAhead);
    const height = readGiven(hook.height, FIELDS.hookHeight);
    if (!ahead.ok || !height.ok) continue;
    const dx = cg.ahead.value - ahead.value.value;
    const dz = cg.height.value - height.value.value;
    const reach = Math.hypot(dx, dz);
    if (reach < 0.02) continue;
    const covariance = withReading(solved.cgAndWheelbase, [-dz / reach, 0, dx / reach, 0], spread);
    const from = hook.name ? `, from the ${hook.name}` : '';
    if (!best || heightAfter(covariance) < heightAfter(best.covariance)) best = { covariance, from };
  }
  if (best) return best;
  const from = ', from a hook far from the others';
  return Array.from({ length: DIRECTIONS }, (_, k) => {
    const normal = (Math.PI * k) / DIRECTIONS;
    const h = [Math.cos(normal), 0, Math.sin(normal), 0];
    return { covariance: withReading(solved.cgAndWheelbase, h, spread), from };
  }).reduce((least, other) =>
    heightAfter(other.covariance) < heightAfter(least.covariance) ? other : least,
  );
}

/** How far, in standard uncertainty, a line like the present ones passes from the CG (m). */
function typicalSpread({ joint, meeting }: Solved): number {
  const at = (i: number, j: number) => joint.covariance[i]?.[j] ?? NaN;
  const variances = joint.hangs.map(({ line }, k) => {
    const lever =
      Math.cos(line.angle) * (meeting.x - line.through.x) +
      Math.sin(line.angle) * (meeting.z - line.through.z);
    const [a, o] = [2 * k, 2 * k + 1];
    return lever * lever * at(a, a) + 2 * lever * at(a, o) + at(o, o);
  });
  return Math.sqrt(variances.reduce((sum, v) => sum + v, 0) / variances.length);
}

function withGain(
  what: string,
  href: string,
  cg: CgEstimate,
  covariance: readonly (readonly number[])[],
  solved: Solved,
  readings: StateReadings,
): NextReading {
  const now = solved.tips.ok ? weakerSide(solved.tips.value) : null;
  const then = tipsOf(cg, covariance, solved.joint, readings);
  const after = then.ok ? weakerSide(then.value) : null;
  if (now && after) {
    const [from, to] = told(
      COVERAGE * angleIn(radians(now.u), 'deg'),
      COVERAGE * angleIn(radians(after.u), 'deg'),
    );
    return {
      text: `${what}: side tip ± ${from}° becomes ± ${to}°.`,
      href,
      gain: { of: 'side tip', now: now.u, then: after.u },
    };
  }
  const heightThen = Math.sqrt(covariance[2]?.[2] ?? NaN);
  const [from, to] = told(
    COVERAGE * lengthIn(meters(cg.height.u), 'mm'),
    COVERAGE * lengthIn(meters(heightThen), 'mm'),
  );
  return {
    text: `${what}: height ± ${from} mm becomes ± ${to} mm.`,
    href,
    gain: { of: 'height', now: cg.height.u, then: heightThen },
  };
}

/** Two ± as told: one decimal, or two where one would hide the difference. */
function told(now: number, then: number): readonly [string, string] {
  const short = [now.toFixed(1), then.toFixed(1)] as const;
  return short[0] === short[1] ? [now.toFixed(2), then.toFixed(2)] : short;
}

const weakerSide = ({ left, right }: TruckTips) =>
  left.angle.value <= right.angle.value ? left.angle : right.angle;
