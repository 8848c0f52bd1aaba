import type { BenchAnswer, Warning } from '../../answer/benchAnswer';
import type { BenchSheet, BuildState } from '../../sheet/schema';
import { keepNumbers, showAngle, showLength, type Shown } from '../shared/format';
import { objectPlace } from '../shared/objectWords';
import { lengthUnitOf } from '../shared/readersUnits';
import { countReadings, readingsText } from '../shared/readingsCount';

/** One field of the title block. `shown` is null where there is no number. */
export interface BlockCell {
  readonly label: string;
  readonly shown: Shown | null;
  /** A word under the number: where it comes from when that is not a reading. */
  readonly remark?: string;
  /** Said under the number on a phone, where no group label has room for it. */
  readonly apart?: string;
}

/** What the title block says, ready to be set. */
export interface TitleBlockView {
  readonly truck: string;
  readonly state: string;
  readonly trial: boolean;
  readonly lengthUnit: string;
  /** Of a truck its three places, of an object the two in its own axes. */
  readonly cg: readonly BlockCell[];
  /** Of a truck over its four edges, of an object over both ends of its base. */
  readonly tips: readonly BlockCell[];
  readonly body: BuildState['body'];
  /** "Truck, state": over the names. */
  readonly named: string;
  /** What the numbers are, in one line each, for paper. */
  readonly printed: { readonly cg: string; readonly tips: string };
  /** The two numbers that a phone has room for. */
  readonly short: readonly [BlockCell, BlockCell];
  /** Why there are no numbers, in one sentence; null when there are. */
  readonly why: string | null;
  /** Said beside the numbers while the readings behind them do not agree; null where they do. */
  readonly apart: string | null;
  readonly next: { readonly text: string; readonly href: string };
  readonly readings: string;
}

/** Warnings under which no number stands unmarked. */
const APART: ReadonlySet<Warning['code']> = new Set(['reading disagrees', 'readings scatter']);

const TIP_NAMES = ['left', 'right', 'climb', 'descent'] as const;
const TIP_LABELS = ['left down', 'right down', 'climb', 'descent'] as const;

/** The title block of a sheet's open state. Numbers only where the answer has them; otherwise why not. */
export function titleBlockView(
  sheet: BenchSheet,
  state: BuildState,
  answer: BenchAnswer,
  trial: boolean,
): TitleBlockView {
  const refused = answer.cg.ok ? answer.tips : answer.cg;
  const apart = answer.warnings.some(({ code }) => APART.has(code)) ? 'readings do not agree' : null;
  return {
    ...(state.body === 'object' ? objectCells(state, answer, apart) : truckCells(state, answer, apart)),
    body: state.body,
    truck: sheet.name,
    state: state.name,
    trial,
    lengthUnit: lengthUnitOf(state),
    // A missing reading is what "do next" asks for; only what cannot be computed needs its reason as well.
    why:
      refused.ok ||
      refused.reason === 'missing' ||
      refused.message === answer.next.text ||
      (state.body === 'object' && answer.cg.ok)
        ? null
        : refused.message,
    apart,
    next: { href: answer.next.href, text: keepNumbers(answer.next.text) },
    readings: readingsText(countReadings(state, answer)),
  };
}

type Cells = Pick<TitleBlockView, 'cg' | 'tips' | 'named' | 'printed' | 'short'>;

function truckCells(state: BuildState, answer: BenchAnswer, apart: string | null): Cells {
  const unit = lengthUnitOf(state);
  const cg = answer.cg.ok ? answer.cg.value : null;
  const tips = answer.tips.ok ? answer.tips.value : null;
  // What is known while the rest is not is told all the same.
  const ahead = cg?.ahead ?? answer.known.ahead;
  const left = cg?.left ?? answer.known.left;
  const height = cg ? showLength(cg.height, unit) : null;
  const cells = TIP_NAMES.map((name, index): BlockCell => {
    const estimate = tips?.[name].angle;
    return { label: TIP_LABELS[index] ?? name, shown: estimate ? showAngle(estimate) : null };
  });
  // On a phone the side on which the truck tips first; left where both are alike or unknown.
  const right = tips !== null && tips.right.angle.value < tips.left.angle.value;
  const side = cells[right ? 1 : 0] ?? { label: TIP_LABELS[0], shown: null };
  return {
    named: 'Truck, state',
    cg: [
      { label: 'ahead of rear axle', shown: ahead ? showLength(ahead, unit) : null },
      {
        label: 'left of center',
        shown: left ? showLength(left, unit) : null,
        ...(cg?.lateralFrom === 'assumed' ? { remark: 'not weighed' } : {}),
      },
      { label: 'above ground', shown: height },
    ],
    tips: cells,
    printed: {
      cg: 'ahead of rear axle, left of center, above ground',
      tips: 'left down, right down, climb, descent',
    },
    short: [
      { label: `CG above ground, ${unit}`, shown: height, ...(apart ? { apart } : {}) },
      { ...side, label: `side tip, ${side.label}` },
    ],
  };
}

function objectCells(state: BuildState, answer: BenchAnswer, apart: string | null): Cells {
  const unit = lengthUnitOf(state);
  const place = objectPlace(answer);
  const shown = (part: 'along' | 'aside', otherwise: string): BlockCell => ({
    label: place?.[part].label ?? otherwise,
    shown: place ? showLength(place[part].estimate, unit) : null,
  });
  const along = shown('along', 'from point 1 toward point 2');
  const aside = shown('aside', 'to the left of that line');
  const tips = ([1, 2] as const).map((base): BlockCell => {
    const tip = answer.baseTips?.find((each) => each.base === base);
    return { label: `over base ${base}`, shown: tip ? showAngle(tip.angle) : null };
  });
  return {
    named: 'Object, state',
    cg: [along, aside],
    tips,
    printed: { cg: `${along.label}, ${aside.label}`, tips: 'over base 1, over base 2' },
    short: [
      { ...along, label: `${along.label}, ${unit}`, ...(apart ? { apart } : {}) },
      { ...aside, label: `${aside.label}, ${unit}` },
    ],
  };
}
