import type { BenchAnswer } from '../../answer/benchAnswer';
import type { Angle, Estimate, Length, Result } from '../../physics';
import { hangDirection, radians, refusal, success } from '../../physics';
import { FIELDS } from '../../sheet/fields';
import { EXAMPLE_CG, EXAMPLE_HOOKS } from '../shared/exampleTruck';
import { fixed, showAngle, showLength, type Shown } from '../shared/format';

/** What a reader can be asked to guess. */
export interface GuessQuantity {
  readonly field: (typeof FIELDS)['guessHeight' | 'guessAngle' | 'guessShare' | 'guessHungAngle'];
  readonly unit: 'mm' | 'deg' | '%';
  /** Ends of the ruler, in `unit`. */
  readonly min: number;
  readonly max: number;
  /** Words under the low end and the high end of the ruler. */
  readonly low: string;
  readonly scale: string;
  /** What the measured value is called. */
  readonly measured: string;
  /** More of it is called so: "higher". */
  readonly more: string;
  readonly less: string;
  /** The answer, in `unit`, as shown, or why there is none. */
  readonly answer: (answer: BenchAnswer) => Result<{ readonly number: number; readonly shown: Shown }>;
}

const inUnit = (shown: Shown): { readonly number: number; readonly shown: Shown } => ({
  number: Number(shown.value.replace('−', '-')),
  shown,
});
const length = (estimate: Estimate<Length>) => inUnit(showLength(estimate, 'mm'));
const slope = (estimate: Estimate<Angle>) => inUnit(showAngle(estimate));
const percent = (share: number) => inUnit({ value: fixed(100 * share, 1), plusMinus: '', unit: '%' });

/** How far the nose of the example truck goes down when it hangs by the rear eye of its bed rail. */
function noseDownByTheBedRail(): Result<Estimate<Angle>> {
  const [, , bedRail] = EXAMPLE_HOOKS;
  const string = hangDirection(bedRail.at, EXAMPLE_CG);
  // The string points straight down, −90° in the axes of a level truck.
  return string.ok ? success({ value: radians(string.value + Math.PI / 2), u: 0 }) : string;
}

export const GUESS_QUANTITIES: Readonly<Record<string, GuessQuantity>> = {
  height: {
    field: FIELDS.guessHeight,
    unit: 'mm',
    min: 40,
    max: 160,
    low: 'nearer the ground',
    scale: 'mm above ground',
    measured: 'measured, above ground',
    more: 'too high',
    less: 'too low',
    answer: ({ cg }) => (cg.ok ? success(length(cg.value.height)) : cg),
  },
  'side-tip': {
    field: FIELDS.guessAngle,
    unit: 'deg',
    min: 20,
    max: 70,
    low: 'nearly flat',
    scale: 'degrees of slope',
    measured: 'worked out, weaker side',
    more: 'too steep',
    less: 'too flat',
    answer: ({ tips }) => {
      if (!tips.ok) return tips;
      const { left, right } = tips.value;
      return success(slope(left.angle.value <= right.angle.value ? left.angle : right.angle));
    },
  },
  'front-share': {
    field: FIELDS.guessShare,
    unit: '%',
    min: 30,
    max: 70,
    low: 'nose light',
    scale: '% of the weight on the front wheels',
    measured: 'measured, on the front wheels',
    more: 'too much',
    less: 'too little',
    answer: ({ known, stance }) => {
      if (!stance.ok) return stance;
      const ahead = known.ahead?.value ?? stance.value.cg.x;
      return success(percent(ahead / stance.value.wheelbase));
    },
  },
  'hung-by-the-bed-rail': {
    field: FIELDS.guessHungAngle,
    unit: 'deg',
    min: -90,
    max: 90,
    low: 'nose up',
    scale: 'degrees, nose down',
    measured: 'worked out, nose down',
    more: 'too far nose down',
    less: 'too little nose down',
    answer: () => {
      const hung = noseDownByTheBedRail();
      return hung.ok ? success(slope(hung.value)) : hung;
    },
  },
};

/** The quantity by its name in the page. */
export function guessQuantity(name: string): Result<GuessQuantity> {
  const quantity = GUESS_QUANTITIES[name];
  return quantity
    ? success(quantity)
    : refusal(
        'unknown',
        `“${name}” is nothing to guess. Known: ${Object.keys(GUESS_QUANTITIES).join(', ')}.`,
      );
}

/** Where a guess is kept on the sheet: "3/B" for the guess at B3. */
export function guessKey(address: string): string {
  const [, letter = '', chapter = '', more = ''] = /^([A-H])(\d)(\.\d+)?$/.exec(address) ?? [];
  return `${chapter}/${letter}${more}`;
}
