import type { BenchAnswer, Warning } from '../../answer/benchAnswer';
import type { BenchSheet, BuildState } from '../../sheet/schema';
import { keepNumbers, showAngle, showLength, type Shown } from '../shared/format';
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
  readonly cg: readonly [BlockCell, BlockCell, BlockCell];
  readonly tips: readonly [BlockCell, BlockCell, BlockCell, BlockCell];
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
  const unit = lengthUnitOf(state);
  const cg = answer.cg.ok ? answer.cg.value : null;
  const tips = answer.tips.ok ? answer.tips.value : null;
  const tip = (index: 0 | 1 | 2 | 3): BlockCell => {
    const estimate = tips?.[TIP_NAMES[index]].angle;
    return { label: TIP_LABELS[index], shown: estimate ? showAngle(estimate) : null };
  };
  // What is known while the rest is not is told all the same.
  const ahead = cg?.ahead ?? answer.known.ahead;
  const left = cg?.left ?? answer.known.left;
  const refused = answer.cg.ok ? answer.tips : answer.cg;
  return {
    truck: sheet.name,
    state: state.name,
    trial,
    lengthUnit: unit,
    cg: [
      { label: 'ahead of rear axle', shown: ahead ? showLength(ahead, unit) : null },
      {
        label: 'left of center',
        shown: left ? showLength(left, unit) : null,
        ...(cg?.lateralFrom === 'assumed' ? { remark: 'not weighed' } : {}),
      },
      { label: 'above ground', shown: cg ? showLength(cg.height, unit) : null },
    ],
    tips: [tip(0), tip(1), tip(2), tip(3)],
    // A missing reading is what "do next" asks for; only what cannot be computed needs its reason as well.
    why:
      refused.ok || refused.reason === 'missing' || refused.message === answer.next.text
        ? null
        : refused.message,
    apart: answer.warnings.some(({ code }) => APART.has(code)) ? 'readings do not agree' : null,
    next: { href: answer.next.href, text: keepNumbers(answer.next.text) },
    readings: readingsText(countReadings(state, answer)),
  };
}

/** The side on which the truck tips first; left where both are alike or unknown. */
export function worseSide({ tips }: TitleBlockView, answer: BenchAnswer): BlockCell {
  if (!answer.tips.ok) return tips[0];
  const { left, right } = answer.tips.value;
  return right.angle.value < left.angle.value ? tips[1] : tips[0];
}
