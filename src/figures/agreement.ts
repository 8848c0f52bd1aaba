import { type ChartUnit, type ChartValue, spokenValue } from './chartUnit';

/** What an agreement chart shows, and the same in words. */

/** Where a method stands to the answer. Recorded only: kept on the sheet, but of a kind that no answer uses. */
export type Standing = 'agrees' | 'does not agree' | 'set aside' | 'recorded only';

export interface AgreementRow {
  readonly id: string;
  /** "Axle lift, nose up 22°" */
  readonly title: string;
  /** Second line, not drawn on a phone; '' for none. */
  readonly detail: string;
  /** What this method says by itself, in the chart's unit; null where it does not tell alone. */
  readonly alone: ChartValue | null;
  readonly standing: Standing;
}

export interface AgreementAnswer extends ChartValue {
  readonly title: string;
  readonly detail: string;
}

export interface Agreement {
  /** Width to lay out at, px. */
  readonly width: number;
  readonly rows: readonly AgreementRow[];
  /** The answer from all readings counted; null where there is none yet. */
  readonly joint: AgreementAnswer | null;
  /** The answer with, or without, a reading that does not agree, until the reader decides. */
  readonly other?: AgreementAnswer | null;
  /** What the scale counts, unit included: "height above ground, mm". */
  readonly axis: string;
  readonly unit: ChartUnit;
}

/** The value a row is drawn with; null where it has none, or none that is finite. */
export const aloneOf = ({ alone }: AgreementRow): ChartValue | null =>
  alone && Number.isFinite(alone.value) && Number.isFinite(alone.halfWidth) && alone.halfWidth >= 0
    ? alone
    : null;

export const TELLS_NOT_ALONE = 'does not tell alone';

/** What the chart says, in sentences; its name to assistive technology. */
export function agreementWords({ rows, joint, other, axis, unit }: Agreement): string {
  const said = (title: string, words: readonly string[]): string => `${title}: ${words.join(', ')}.`;
  const methods = rows.map((row) => {
    const alone = aloneOf(row);
    return said(row.title, [
      alone ? spokenValue(alone, unit) : TELLS_NOT_ALONE,
      ...(row.standing === 'agrees' ? [] : [row.standing]),
    ]);
  });
  const answers = [joint, other].flatMap((answer) =>
    answer
      ? [said([answer.title, answer.detail].filter(Boolean).join(', '), [spokenValue(answer, unit)])]
      : [],
  );
  return [`Each method beside the answer, ${axis}, plus or minus 19 in 20.`, ...methods, ...answers].join(
    ' ',
  );
}
