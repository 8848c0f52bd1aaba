import { COVERAGE, VIEW_AXES, meters } from '../physics';
import { acrossAt } from '../photo/plumbLines';
import { readState } from '../photo/readState';
import { readingMethods } from '../photo/readingMethods';
import type { MethodOfHang, PoseFrom, ReadingMethod } from '../photo/readingMethods';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';

/** Which way each hang's string was carried into the truck, and why. */
export interface ReadBy extends MethodOfHang {
  /** One sentence or two, without the hang's name. */
  readonly why: string;
}

const held = new WeakMap<BenchAnswer, readonly ReadBy[]>();

/** How each hang is read; nothing while there is no center of gravity. The same answer gives the same result. */
export function readBy(state: BuildState, answer: BenchAnswer): readonly ReadBy[] {
  const known = held.get(answer);
  if (known) return known;
  const fresh = compute(state, answer);
  held.set(answer, fresh);
  return fresh;
}

function compute(state: BuildState, answer: BenchAnswer): readonly ReadBy[] {
  const { cg, adjusted, plumbLines: lines } = answer;
  const { truck, standings, hangs } = readState(state);
  if (!cg.ok || !adjusted || !lines || !truck) return [];
  const { ahead, left, height } = cg.value;
  const at = { x: ahead.value, y: left.value, z: height.value };
  return readingMethods({ truck, standings, hangs, adjusted, lines, cg: at }).map((method) => ({
    ...method,
    why: inWords(state, method, answer),
  }));
}

/** Marks rounder than this tell how the camera looked; below it they lie nearly in one line. */
const NEARLY_IN_LINE = 0.1;

const WORDS: Readonly<Record<ReadingMethod, string>> = {
  similarity: 'a similarity of the body marks',
  'anchored direction': 'the string’s direction alone, from the hook’s place by ruler',
  pose: 'solving how the camera stood',
};
const FROM: Readonly<Record<PoseFrom, string>> = {
  'marks of known place': 'marks of known place',
  hubs: 'the hubs',
  'focal length': 'the focal length',
  'typed distance': 'the camera’s distance',
};
/** What an object has in place of hubs. */
const SCALE_POINTS = 'the two points of known distance';

const mm = (u: number): string => `±\u00a0${(COVERAGE * u * 1000).toFixed(1)}\u00a0mm`;
const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

function inWords(
  { body }: BuildState,
  { pictureId, method, expected, poseFrom }: MethodOfHang,
  answer: BenchAnswer,
): string {
  const own = expected[method] ?? NaN;
  const others = (['similarity', 'anchored direction', 'pose'] as const).flatMap((each) => {
    const u = expected[each];
    return each === method || u === null ? [] : [`${mm(u)} by ${WORDS[each]}`];
  });
  const from =
    method === 'pose'
      ? `, from ${list(poseFrom.map((each) => (each === 'hubs' && body === 'object' ? SCALE_POINTS : FROM[each])))}`
      : '';
  const surest = others.length > 0 ? `, the surest way here; ${list(others)}` : '';
  const fitted = fittedInWords(answer, pictureId, own);
  const roundness = answer.pictures.find((check) => check.pictureId === pictureId)?.roundness ?? 1;
  const inLine =
    roundness < NEARLY_IN_LINE
      ? ' Its body marks lie nearly in one line, which leaves open how the camera looked about that line.'
      : '';
  const unsolved =
    poseFrom.length === 0
      ? ` How the camera stood is not solved: type its distance or focal length${body === 'truck' ? ', mark both hubs, or measure where four body marks lie' : ''}.`
      : '';
  return `Read by ${WORDS[method]}${from}: ${mm(own)} is to be expected at the center of gravity${surest}.${fitted}${inLine}${unsolved}`;
}

/** What the fit of all pictures makes of it, where that is another number. */
function fittedInWords({ cg, plumbLines: lines }: BenchAnswer, pictureId: string, expected: number): string {
  const line = lines?.hangs.find((hang) => hang.pictureId === pictureId);
  if (!cg.ok || !lines || !line) return '';
  const [first, second] = VIEW_AXES[line.view];
  const { ahead, left, height } = cg.value;
  const at = { x: ahead.value, y: left.value, z: height.value };
  const u = acrossAt(lines, pictureId, { x: meters(at[first]), z: meters(at[second]) });
  return mm(u) === mm(expected) ? '' : ` All pictures fitted together leave ${mm(u)}.`;
}
