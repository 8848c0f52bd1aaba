import { html, nothing, type TemplateResult } from 'lit';
import { angleIn, COVERAGE, crossingAngle, lengthIn, radians, type Length } from '../../physics';
import type { BenchAnswer, LineOfHang } from '../../answer/benchAnswer';
import { readBy } from '../../answer/readBy';
import type { BuildState, Hook } from '../../sheet/schema';
import { asText, fixed, keepNumbers, NO_BREAK } from '../shared/format';
import {
  brackets,
  formula,
  fraction,
  letter,
  named,
  number,
  resultNumber,
  row,
  sign,
  text,
  workingSteps,
  type MathFragment,
  type WorkingStep,
} from '../shared/formula';
import { cgPlace, lineName, missesInMm } from './answerView';
import { givenBrief } from './givenRow';
import { hangNumber } from '../../sheet/hangs';

import { capital } from './words';

const mm = (length: Length): string => fixed(lengthIn(length, 'mm'), 1);

/** Direction of a line from straight ahead, −90° to 90°, in degrees. */
function slope(line: LineOfHang): number {
  const turn = angleIn(line.line.angle, 'deg') % 180;
  return turn > 90 ? turn - 180 : turn <= -90 ? turn + 180 : turn;
}

/** What the axes are called, and the letters of their coordinates. */
interface Axes {
  readonly name: string;
  /** Where directions are counted from. */
  readonly zero: string;
  readonly along: string;
  readonly across: string;
  /** Coordinate across the first axis, of a line's point and of the center of gravity. */
  readonly z: string;
  readonly h: string;
  readonly acrossGives: string;
}

const AXES: Readonly<Record<BuildState['body'], Axes>> = {
  truck: {
    name: 'the truck’s axes',
    zero: 'straight ahead',
    along: 'mm ahead of the rear axle',
    across: 'mm above ground',
    z: 'z',
    h: 'h',
    acrossGives: 'The height follows',
  },
  object: {
    name: 'the object’s own axes',
    zero: 'the way from scale point 1 toward point 2',
    along: 'mm from scale point 1 toward point 2',
    across: 'mm to the left of that way',
    z: 'y',
    h: 'y',
    acrossGives: 'The place beside the first axis follows',
  },
};

/** Steeper than this a tangent says nothing to a reader: the line is called upright. */
const UPRIGHT = 89;

const at = (name: string, index: string): MathFragment => letter(name, index);
const equals = sign('=');
const tangent = (index: string): MathFragment => row(named('tan'), at('φ', index));

/** The working, from strings to the center of gravity; nothing while there is no answer. */
export function workingPart(state: BuildState, answer: BenchAnswer): TemplateResult | typeof nothing {
  const cg = cgPlace(answer);
  if (!cg || !answer.cg.ok) return nothing;
  const steps: WorkingStep[] = [...answer.lines.map((line) => lineStep(state, answer, line))];
  for (const line of answer.lines) {
    const droop = droopStep(state, line);
    if (droop) steps.push(droop);
  }
  const [first, second] = answer.lines;
  const two = answer.lines.length === 2 && !answer.foreAft;
  if (two && first && second) steps.push(...crossingSteps(state, first, second, cg.x, cg.z));
  else steps.push(fitStep(state, answer, cg.x, cg.z));
  return workingSteps(steps);
}

function lineStep(state: BuildState, answer: BenchAnswer, line: LineOfHang): WorkingStep {
  const index = String(hangNumber(state, line.pictureId) || line.n);
  const axes = AXES[state.body];
  const hook = state.hooks.find(({ id }) => id === line.hookId);
  const check = answer.pictures.find(({ pictureId }) => pictureId === line.pictureId);
  const marks = check ? `${check.keys.length} body marks` : 'the body marks';
  const placed = hook ? givensOfHook(state, hook) : null;
  const angle = fixed(slope(line), 1);
  const u = fixed(COVERAGE * angleIn(radians(line.angleU), 'deg'), 1);
  const drooped = line.droop.across !== 0;
  const way = readBy(state, answer).find(({ pictureId }) => pictureId === line.pictureId);
  return {
    sentence: html`<strong>${capital(lineName(state, line))}.</strong> The string is the plumb line. Turned
      into ${axes.name} by ${marks}, it runs at ${asText({ value: angle, plusMinus: u, unit: '°' })} from
      ${axes.zero}. ${way?.why ?? ''}
      ${
        !hook
          ? 'The two marks of the string alone give the line, through this point:'
          : placed
            ? html`It passes through the hook, which you ruled
                <span class="given-number">${placed.ahead}</span> ahead and
                <span class="given-number">${placed.height}</span> up. Adjusted together with all the rest:`
            : 'It passes through the hook, whose place is read off the standing picture:'
      }`,
    numbers: formula(
      row(at('φ', index), equals, number(`${angle}°`)),
      text(',\u2003'),
      row(at('x', index), equals, number(mm(drooped ? line.hook.x : line.line.through.x))),
      text(',\u2003'),
      row(at(axes.z, index), equals, number(mm(drooped ? line.hook.z : line.line.through.z))),
      text('\u00a0mm'),
    ),
  };
}

/** A ruled hook's place as the reader typed it; null where it is read off. */
function givensOfHook(
  state: BuildState,
  hook: Hook,
): { readonly ahead: string; readonly height: string } | null {
  if (hook.source !== 'ruler') return null;
  const path = `hooks/${state.hooks.indexOf(hook)}`;
  return { ahead: givenBrief(state, `${path}/ahead`), height: givenBrief(state, `${path}/height`) };
}

function droopStep(state: BuildState, line: LineOfHang): WorkingStep | null {
  const { droop } = line;
  if (droop.ahead === 0 && droop.up === 0 && droop.across === 0) return null;
  const index = String(hangNumber(state, line.pictureId) || line.n);
  const part = (axle: string) => row(fraction(at('m', axle), letter('M')), at('d', axle));
  return {
    sentence: html`<strong>Droop in ${lineName(state, line)}.</strong> Hung free, the axles moved against the
      body and took their share of the mass along. The line is shifted back by as much, so that it holds for
      the truck at ride height.`,
    symbols: formula(at('s', index), equals, sign('−'), brackets(part('front'), sign('+'), part('rear'))),
    numbers: formula(
      at('s', index),
      equals,
      brackets(
        number(fixed(-lengthIn(droop.ahead, 'mm'), 1)),
        sign(','),
        number(fixed(-lengthIn(droop.up, 'mm'), 1)),
      ),
      text('\u00a0mm ahead, up'),
    ),
    after: keepNumbers(
      `Across the line that is ${fixed(Math.abs(lengthIn(droop.across, 'mm')), 1)} mm. The shifted line passes through ${mm(line.line.through.x)} mm ahead, ${mm(line.line.through.z)} mm up.`,
    ),
  };
}

function crossingSteps(
  state: BuildState,
  first: LineOfHang,
  second: LineOfHang,
  x: Length,
  z: Length,
): WorkingStep[] {
  const indexOf = (line: LineOfHang) => String(hangNumber(state, line.pictureId) || line.n);
  const [n1, n2] = [indexOf(first), indexOf(second)];
  const [s1, s2] = [slope(first), slope(second)];
  const [p1, p2] = [first.line.through, second.line.through];
  const axes = AXES[state.body];
  const cross = Math.round(angleIn(crossingAngle(first.line, second.line), 'deg'));
  const result = results(axes, x, z);
  // The flatter line gives the height: its tangent is the smaller number.
  const [flat, index] = Math.abs(s1) <= Math.abs(s2) ? [first, n1] : [second, n2];
  const flatSlope = slope(flat);
  const heightStep: WorkingStep = {
    sentence: `${axes.acrossGives} along the flatter of the two lines.`,
    symbols: formula(
      letter(axes.h),
      equals,
      at(axes.z, index),
      sign('+'),
      brackets(letter('x'), sign('−'), at('x', index)),
      tangent(index),
    ),
    numbers: formula(
      letter(axes.h),
      equals,
      number(mm(flat.line.through.z)),
      sign('+'),
      brackets(number(mm(x)), sign('−'), term(mm(flat.line.through.x))),
      brackets(number(tan(flatSlope))),
    ),
    result: result[1],
  };
  const steep = Math.abs(s1) > UPRIGHT ? first : Math.abs(s2) > UPRIGHT ? second : null;
  if (steep)
    return [
      {
        sentence: `The lines cross at ${cross}°. One of them stands upright, so the center of gravity lies as far ${state.body === 'object' ? 'along' : 'ahead'} as that line.`,
        result: result[0],
      },
      heightStep,
    ];
  return [
    {
      sentence: `The center of gravity lies on both lines, so it is where they cross, here at ${cross}°.`,
      symbols: formula(
        letter('x'),
        equals,
        fraction(
          row(
            at(axes.z, n2),
            sign('−'),
            at(axes.z, n1),
            sign('+'),
            at('x', n1),
            tangent(n1),
            sign('−'),
            at('x', n2),
            tangent(n2),
          ),
          row(tangent(n1), sign('−'), tangent(n2)),
        ),
      ),
      numbers: formula(
        letter('x'),
        equals,
        fraction(
          row(
            number(mm(p2.z)),
            sign('−'),
            term(mm(p1.z)),
            sign('+'),
            term(mm(p1.x)),
            brackets(number(tan(s1))),
            sign('−'),
            term(mm(p2.x)),
            brackets(number(tan(s2))),
          ),
          row(number(tan(s1)), sign('−'), brackets(number(tan(s2)))),
        ),
      ),
      result: result[0],
    },
    heightStep,
  ];
}

/** A number within a sum: a negative one in brackets, so that no two signs meet. */
const term = (value: string): MathFragment =>
  value.startsWith('−') ? brackets(number(value)) : number(value);

const tan = (degrees: number): string => fixed(Math.tan((degrees * Math.PI) / 180), 4);

/** Both coordinates with their words, as a worked sheet ends. */
const results = ({ along, across, h }: Axes, x: Length, z: Length) =>
  [
    formula(letter('x'), equals, resultNumber(mm(x)), text(`\u00a0${along}`)),
    formula(letter(h), equals, resultNumber(mm(z)), text(`\u00a0${across}`)),
  ] as const;

function fitStep(state: BuildState, answer: BenchAnswer, x: Length, z: Length): WorkingStep {
  const axes = AXES[state.body];
  const misses = missesInMm(answer);
  const words = answer.lines.map(
    (line, index) =>
      `${lineName(state, line)} passes ${(misses[index] ?? 0).toFixed(1)}${NO_BREAK}mm from it`,
  );
  if (answer.foreAft)
    words.push(
      `the scales’ line at ${mm(answer.foreAft.value)}${NO_BREAK}mm ahead passes ${(Math.abs(answer.foreAft.value - x) * 1000).toFixed(1)}${NO_BREAK}mm from it`,
    );
  return {
    sentence: html`Each line asks the center of gravity to lie on it. More than two lines seldom meet in one
    point; the place that misses them least, every line weighed by how sure it is there and all of them
    together, is the answer.`,
    symbols: formula(
      brackets(letter('x'), sign('−'), at('x', 'i')),
      row(named('sin'), at('φ', 'i')),
      sign('−'),
      brackets(letter(axes.h), sign('−'), at(axes.z, 'i')),
      row(named('cos'), at('φ', 'i')),
      equals,
      number('0'),
    ),
    result: html`${results(axes, x, z)}`,
    after: html`${capital(words.join('; '))}.`,
  };
}
