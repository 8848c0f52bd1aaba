import {
  COVERAGE,
  PLANE_COVERAGE,
  angleIn,
  chiSquaredProbability,
  degrees,
  lengthIn,
  massIn,
  meters,
} from '../physics';
import type { CompositeCg, Estimate, Mass } from '../physics';
import type { HangingPicture, TruckGivens } from '../photo/fit/givens';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer, Computed } from './benchAnswer';
import type { CgEstimate } from './cgEstimate';
import { chance } from './chance';
import { disagreement } from './disagreement';
import { pictureQuality } from './pictureQuality';
import { titleOf } from './titles';

/** What is wrong, or true but not wrong, with an answer; always with its size where it has one. */
export interface Warning {
  readonly code:
    | 'narrow crossing'
    | 'droop not corrected'
    | 'hook read off'
    | 'marks close together'
    | 'marks misfit'
    | 'string too short'
    | 'view too oblique'
    | 'registration worse than expected'
    | 'worst mark'
    | 'reading disagrees'
    | 'readings scatter'
    | 'pictures unused'
    | 'reading unread'
    | 'other side'
    | 'axle may have rolled'
    | 'two lines'
    | 'no check'
    | 'list differs';
  /** Remarks are true but nothing is wrong. */
  readonly kind: 'warning' | 'remark';
  readonly title: string;
  readonly text: string;
  /** Size in the side plane, mm: how far off what the title names may be, or is. */
  readonly sizeMm: number | null;
  readonly picture?: string;
  /** The reading to look at, where it is one of the readings panel. */
  readonly reading?: string;
}

/**
 * Below this two lines are called narrow: lines of equal u crossing at γ leave a standard deviation u/(√2 sin(γ/2))
 * along them, u at a right angle and 2.7 u at 30°.
 */
const NARROW = degrees(30);
/** A free axle may drop this far (common practice), m. */
const USUAL_DROOP = 0.025;
/** Marks nearer together than this tell the direction poorly, m: 1 mm over 120 mm is half a degree. */
const CLOSE_TOGETHER = 0.12;
/** Chance below which the parts list, where it is not counted, and the readings are said to disagree. */
const DISAGREE_BELOW = 0.05;

const mm = (value: number): string => (value * 1000).toFixed(1);

type Solved = Pick<
  BenchAnswer,
  | 'cg'
  | 'lines'
  | 'otherLines'
  | 'plumbLines'
  | 'foreAft'
  | 'crossings'
  | 'pictures'
  | 'consistency'
  | 'partsListCg'
  | 'adjusted'
  | 'joint'
  | 'blunder'
>;

/** Warnings and remarks for the readings and the answer they gave. */
export function warningsOf({ state, readings, pictures, read }: Computed, answer: Solved): Warning[] {
  const out: Warning[] = [];
  const warn = (warning: Omit<Warning, 'kind'>) => out.push({ kind: 'warning', ...warning });
  const remark = (warning: Omit<Warning, 'kind'>) => out.push({ kind: 'remark', ...warning });
  for (const picture of readings.otherSide) {
    warn({
      code: 'other side',
      title: 'Taken from the other side.',
      text: 'This hanging picture shows the other side of the truck than the standing one, so their marks cannot be joined. Photograph both from one side, or set the view right.',
      sizeMm: null,
      picture,
    });
  }
  for (const picture of readings.rolledAxles) {
    warn({
      code: 'axle may have rolled',
      title: 'The suspension was free.',
      text: 'Hung from a side, a free axle also rolls, and no mark tells by how much, so this picture does not count. Lock the suspension and hang it again.',
      sizeMm: null,
      picture,
    });
  }
  for (const { id, notCounted } of read.entries) {
    if (notCounted?.because !== 'fault') continue;
    warn({
      code: 'reading unread',
      title: `${titleOf(state, id)} is not counted.`,
      text: `${notCounted.message} The answer rests on the other readings until then.`,
      sizeMm: null,
      reading: id,
    });
  }
  if (!answer.cg.ok) return out;
  if (pictures.refused) {
    warn({
      code: 'pictures unused',
      title: 'The photographs are not counted.',
      text: `${pictures.refused.message} The answer rests on the other readings until then.`,
      sizeMm: null,
    });
  }
  for (const view of pictures.unfit) {
    warn({
      code: 'pictures unused',
      title: `Pictures from the ${view} are not counted.`,
      text: 'No place of truck and cameras comes near both them and the pictures from the side. See whether left and right tire are swapped, and look at each mark in the loupe.',
      sizeMm: null,
    });
  }
  const cg = answer.cg.value;

  const widest = answer.crossings[0];
  if (widest && widest.angle < NARROW) {
    const long = COVERAGE * (cg.ellipse.semiMajor / PLANE_COVERAGE);
    warn({
      code: 'narrow crossing',
      title: `The lines cross at only ${angleIn(widest.angle, 'deg').toFixed(0)}°.`,
      text: `Along the lines the center of gravity is sure to ± ${mm(long)} mm only. Hang the ${state.body} from a hook farther from the first, best so that the lines cross near 90°.`,
      sizeMm: long * 1000,
    });
  }
  const { truck } = readings;
  for (const hang of readings.hangs) {
    if (hang.suspension !== 'free' || (hang.frontHub && hang.rearHub) || !truck) continue;
    const size = droopUnread(hang, truck);
    warn({
      code: 'droop not corrected',
      title: 'Droop is not corrected.',
      text: `The suspension hung free and ${hang.frontHub || hang.rearHub ? 'one hub is' : 'the hubs are'} not marked. Axles that drop 25 mm put this line up to ${mm(size)} mm off. Mark both hubs in this picture, or lock the suspension and hang again.`,
      sizeMm: size * 1000,
      picture: hang.id,
    });
  }
  const { adjusted } = answer;
  for (const hook of truck?.hooks ?? []) {
    const index = adjusted?.layout.hooks.get(hook.id);
    if (hook.ruled || index === undefined || !adjusted) continue;
    const { covariance } = adjusted.adjustment;
    const u = Math.sqrt(Math.max(covariance.get(index, index), covariance.get(index + 2, index + 2)));
    warn({
      code: 'hook read off',
      title: `A hook’s place is read off the picture: ${readings.hookNames.get(hook.id) ?? ''}.`,
      text: `It is sure to ± ${mm(COVERAGE * u)} mm, and that goes straight into its line. A ruler held from hub to hook and from ground to hook makes it about ± 1.5 mm.`,
      sizeMm: COVERAGE * u * 1000,
    });
  }
  for (const [picture, { key, off }] of adjusted?.misplaced ?? []) {
    if (key !== null) {
      warn({
        code: 'worst mark',
        title: `Look again: mark ${key}.`,
        text: `It sits about ${mm(off)} mm from where the other marks put it. Move it in the loupe, or set it aside.`,
        sizeMm: off * 1000,
        picture,
      });
    } else {
      warn({
        code: 'marks misfit',
        title: 'The body marks do not fit each other.',
        text: `One of them sits about ${mm(off)} mm off, more than its own ± explains, but they cannot tell which. Look at each in the loupe; another mark would name it.`,
        sizeMm: off * 1000,
        picture,
      });
    }
  }
  for (const { pictureId: picture, misfit, expected, span } of answer.pictures) {
    if (misfit === null) {
      remark({
        code: 'no check',
        title: 'Two body marks: no check.',
        text: 'Two marks always fit each other. A third shows whether one is misplaced, a fourth which one.',
        sizeMm: null,
        picture,
      });
    }
    if (span < CLOSE_TOGETHER) {
      const size = leverOf(answer, picture) * (expected / Math.max(span, 1e-3)) * COVERAGE;
      warn({
        code: 'marks close together',
        title: 'The body marks lie close together.',
        text: `They span ${lengthIn(meters(span), 'mm').toFixed(0)} mm, so their own ± turns the line by enough to move the center of gravity ${mm(size)} mm. Choose landmarks at both ends of the ${state.body === 'object' ? 'object' : 'body'}.`,
        sizeMm: size * 1000,
        picture,
      });
    }
  }
  out.push(...pictureQuality({ state, readings, pictures, read }, answer));
  const apart = disagreement(state, answer);
  if (apart) out.push(apart);
  const lines = answer.lines.length + (answer.foreAft ? 1 : 0);
  if (lines === 2 && answer.lines.every(({ misses }) => misses?.normalized === null)) {
    remark({
      code: 'two lines',
      title: 'Two lines always cross.',
      text: `Nothing here tells you whether one of them is wrong. ${answer.lines.length === 2 ? 'A third' : 'Another'} hang would${state.body === 'object' ? '' : ', or a reading of another kind'}.`,
      sizeMm: null,
    });
  }
  const listCounts = read.bench.readings.some(({ kind }) => kind === 'parts list');
  const list =
    answer.partsListCg &&
    !listCounts &&
    listWarning(answer.partsListCg, cg, answer.joint?.mass ?? null, state.body);
  if (list) out.push(list);
  return out;
}

/** How far, at most, axles without a marked hub put the line of a hang off, m; a hook on an axle drops with it. */
function droopUnread(hang: HangingPicture, truck: TruckGivens): number {
  const carrier = truck.hooks.find(({ id }) => id === hang.hook)?.carrier;
  const perMeter = [
    hang.frontHub ? 0 : (carrier === 'front axle' ? 1 : 0) - truck.frontMassShare.value,
    hang.rearHub ? 0 : (carrier === 'rear axle' ? 1 : 0) - truck.rearMassShare.value,
  ];
  // Two axles that push opposite ways need not drop alike: the worse of the two then counts alone.
  const sum = (sign: 1 | -1) => perMeter.reduce((total, by) => total + Math.max(0, sign * by), 0);
  return Math.max(sum(1), sum(-1)) * USUAL_DROOP;
}

/**
 * What is wrong with the parts list beside the measured center of gravity: it is not the whole truck, or its center of
 * gravity lies farther off in the side plane than both ± allow (chi-squared, two degrees of freedom).
 */
function listWarning(
  list: CompositeCg,
  cg: CgEstimate,
  mass: Estimate<Mass> | null,
  body: BuildState['body'],
): Warning | null {
  if (mass && Math.abs(list.mass.value - mass.value) > COVERAGE * Math.hypot(list.mass.u, mass.u)) {
    const grams = (of: Mass) => massIn(of, 'g').toFixed(0);
    return {
      code: 'list differs',
      kind: 'remark',
      title: `The parts list is not the whole ${body}.`,
      text: `It adds up to ${grams(list.mass.value)} g, the scales say ${grams(mass.value)} g. Until both agree, its center of gravity is not the ${body}’s.`,
      sizeMm: null,
    };
  }
  const dx = list.x.value - cg.ahead.value;
  const dz = list.z.value - cg.height.value;
  const at = (i: number, j: number) => (list.covariance[i]?.[j] ?? NaN) + (cg.covariance[i]?.[j] ?? NaN);
  const [xx, xz, zz] = [at(0, 0), at(0, 2), at(2, 2)];
  const chiSquared = (zz * dx * dx - 2 * xz * dx * dz + xx * dz * dz) / (xx * zz - xz * xz);
  const probability = chiSquaredProbability(chiSquared, 2);
  if (!(probability < DISAGREE_BELOW)) return null;
  const size = Math.hypot(dx, dz);
  return {
    code: 'list differs',
    kind: 'warning',
    title: 'The parts list says otherwise.',
    text: `Its center of gravity lies ${mm(size)} mm from the measured one; with both ± right that happens by chance ${chance(probability, body)}. A part is missing from the list or stands in the wrong place, or a hang is wrong.`,
    sizeMm: size * 1000,
  };
}

/** From the hook to the center of gravity, m. */
function leverOf(answer: Solved, picture: string | undefined): number {
  const line = answer.lines.find(({ pictureId }) => pictureId === picture);
  if (!line || !answer.cg.ok) return 0.15;
  const { ahead, height } = answer.cg.value;
  return Math.hypot(ahead.value - line.hook.x, height.value - line.hook.z);
}
