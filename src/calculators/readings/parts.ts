import type { BenchAnswer } from '../../answer/benchAnswer';
import type { BuildState } from '../../sheet/schema';
import type { ListEntry, Standing } from '../shared/listEntries';

/** What every part of the readings panel is drawn from. */
export interface ReadingsParts {
  readonly state: BuildState;
  /** From all readings that count. */
  readonly answer: BenchAnswer;
  /** Entries, changes and folds the reader has opened, by id. */
  readonly opened: ReadonlySet<string>;
  /** Entries that were still to be measured when they were opened: their cautions stand open. */
  readonly fresh: ReadonlySet<string>;
  readonly toggle: (id: string, open: boolean) => void;
  /** Opens an entry and puts the cursor into its first field. */
  readonly goTo: (id: string) => void;
  /** What the answer would be with an entry set aside or counted again, '' while that is not known; whether it disagrees. */
  readonly whatIf: (
    entry: ListEntry,
    standing: Standing,
  ) => { readonly words: string; readonly disagrees: boolean };
  /** Says in words what was done, for screen readers. */
  readonly tell: (words: string) => void;
}
