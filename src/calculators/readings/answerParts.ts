import type { FigureWidth } from '../../figures';
import type { CaredQuantity, LengthUnit, LikelySlip } from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { Separating } from '../../answer/separating';
import type { BuildState } from '../../sheet/schema';
import type { Later } from './later';
import type { MonteCarloRun } from './monteCarloRun';
import type { ReadingsParts } from './parts';

/** What the answer's side of the readings panel is drawn from. */
export interface AnswerParts extends ReadingsParts {
  /** Whether values that are not kept are being tried. */
  readonly trial: boolean;
  /** The other build states of the sheet. */
  readonly others: readonly BuildState[];
  /** What the reader cares about, and how to care about something else. */
  readonly quantity: CaredQuantity;
  readonly care: (quantity: CaredQuantity) => void;
  /** Unit of the truck's places. */
  readonly unit: Extract<LengthUnit, 'mm' | 'in'>;
  /** Worked out when the page has nothing else to do. */
  readonly later: {
    /** The answer with one reading more or less. */
    readonly toggled: Later<BenchAnswer>;
    readonly separating: Later<Separating | null>;
    readonly slips: Later<readonly LikelySlip[]>;
  };
  readonly monteCarlo: MonteCarloRun;
  readonly widths: { readonly agreement: FigureWidth; readonly seen: FigureWidth };
  /** Id of the state that this one is compared with; null for none. */
  readonly compared: string | null;
  readonly compare: (stateId: string | null) => void;
}
