import type { BenchAnswer } from '../../answer/benchAnswer';
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
  readonly next: { readonly text: string; readonly href: string };
  readonly readings: string;
}

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
  const refused = answer.cg.ok ? answer.tips : answer.cg;
  return {
    truck: sheet.name,
    state: state.name,
    trial,
    lengthUnit: unit,
    cg: [
      { label: 'ahead of rear axle', shown: cg ? showLength(cg.ahead, unit) : null },
      {
        label: 'left of center',
        shown: cg ? showLength(cg.left, unit) : null,
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
