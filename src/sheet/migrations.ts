import * as v from 'valibot';
import { refusal, success, type Result } from '../physics/index';
import { brokenRule, issueInWords } from './invalid';
import { brokenReferences } from './references';
import { BenchSheet, SHEET_FORMAT, SHEET_VERSION } from './schema';
import { version1To2 } from './version1To2';
import { version2To3 } from './version2To3';

/** A sheet of any version: only what every version has is known of it. */
export type AnySheet = Readonly<Record<string, unknown>>;

/** One step, from a version to the next. Gives a new record and leaves the one it is given as it was. */
export interface MigrationStep {
  readonly from: number;
  /** What changed, for contributors. */
  readonly what: string;
  readonly change: (sheet: AnySheet) => AnySheet;
}

/** The steps so far. Each later version adds the step that leads to it. */
export const MIGRATIONS: readonly MigrationStep[] = [version1To2, version2To3];

export type MigrationReason = 'not-a-sheet' | 'version-too-new' | 'version-too-old' | 'invalid';

/** Steps must run 1, 2, 3 … up to the version before `target`. Throws otherwise: that is a mistake in the table. */
export function checkSteps(steps: readonly MigrationStep[], target: number): void {
  steps.forEach((step, index) => {
    const first = steps[0]?.from ?? target;
    if (step.from !== first + index)
      throw new Error(`migrations: step ${index + 1} leads from ${step.from}, needs ${first + index}`);
  });
  const last = steps.at(-1);
  if (last && last.from + 1 !== target)
    throw new Error(`migrations: the last step leads to ${last.from + 1}, needs ${target}`);
}

checkSteps(MIGRATIONS, SHEET_VERSION);

const isRecord = (value: unknown): value is AnySheet =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Lifts a record of unknown origin step by step to version `target`, not yet validated. Refuses what is no bench
 * sheet, what a newer workbook wrote, and what is older than the first step.
 */
export function lift(
  record: unknown,
  steps: readonly MigrationStep[],
  target: number,
): Result<AnySheet, MigrationReason> {
  if (!isRecord(record) || record['format'] !== SHEET_FORMAT)
    return refusal(
      'not-a-sheet',
      `Bench sheet: needs format “${SHEET_FORMAT}”; this is something else. Choose a file that this workbook exported.`,
    );
  const version = record['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refusal(
      'not-a-sheet',
      brokenRule(['version'], 'needs a whole number from 1', `got “${String(version)}”`),
    );
  if (version > target)
    return refusal(
      'version-too-new',
      `Version: needs at most ${target}; got “${version}”. A newer workbook wrote this sheet: reload this page, or open it there.`,
    );
  if (version < (steps[0]?.from ?? target))
    return refusal(
      'version-too-old',
      `Version: needs at least ${steps[0]?.from ?? target}; got “${version}”. Open and export it in the workbook that wrote it.`,
    );
  const lifted = steps
    .filter((step) => step.from >= version)
    .reduce<AnySheet>((sheet, step) => ({ ...step.change(sheet), version: step.from + 1 }), record);
  return success(lifted);
}

/** A sheet of the present version, checked in full: every field, and every reference. */
export function validSheet(record: unknown): Result<BenchSheet, 'invalid'> {
  const parsed = v.safeParse(BenchSheet, record);
  if (!parsed.success) return refusal('invalid', issueInWords(parsed.issues[0]));
  const broken = brokenReferences(parsed.output)[0];
  if (broken) return refusal('invalid', brokenRule(broken.path, broken.rule, `got “${broken.got}”`));
  return success(parsed.output);
}

/** What was read from storage or from a file, as a sheet of the present version; or why it is none. */
export function migrate(record: unknown): Result<BenchSheet, MigrationReason> {
  const lifted = lift(record, MIGRATIONS, SHEET_VERSION);
  return lifted.ok ? validSheet(lifted.value) : lifted;
}
