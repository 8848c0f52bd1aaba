import { html, nothing, type TemplateResult } from 'lit';
import { edit, settle } from '../../sheet/bench';
import { withUnit } from '../../sheet/dimensions';
import { isEmpty, plusMinusPlaceholder, type GivenField } from '../../sheet/given';
import type { BuildState, Reading } from '../../sheet/schema';
import { rowId, setGiven } from '../photographs/givenRow';
import { keepNumbers } from '../shared/format';
import '../shared/givenField';
import type { GivenEvent } from '../shared/givenField';
import { givensByPath } from '../shared/givensByPath';
import { pathOf } from './givensUsed';
import { captionOf } from './captions';

export interface GivenWords {
  /** Shorter than the field's own label, where the entry's title says the rest. */
  readonly caption: string;
  readonly note?: string;
}

/** A given of the open state by its path, as a row that edits the sheet. Nothing where the path leads nowhere. */
export function givenAt(
  state: BuildState,
  path: string,
  { caption, note }: GivenWords,
): TemplateResult | typeof nothing {
  const placed = givensByPath(state).get(path);
  if (!placed) return nothing;
  const { given, field } = placed;
  const assumed = isEmpty(given) && field.whenEmpty ? `Empty: ${field.whenEmpty.reason}.` : '';
  const write = (event: GivenEvent): void => {
    edit(
      `Change ${field.label.charAt(0).toLowerCase()}${field.label.slice(1)}`,
      setGiven(placed.path, event.detail.given),
      path,
    );
  };
  return html`<plumb-given
    id=${rowId(path)}
    .field=${field}
    .caption=${caption}
    .given=${given}
    .noPlusMinus=${field.plusMinus === null}
    .limits=${field.plusMinus !== null}
    .note=${note ?? assumed}
    @given-input=${write}
    @given-change=${settle}
  ></plumb-given>`;
}

/** A given of a reading by its name. */
export const readingGiven = (
  state: BuildState,
  reading: Reading,
  name: string,
  note?: string,
): TemplateResult | typeof nothing =>
  givenAt(state, pathOf(state, reading, name), {
    caption: captionOf(reading, name),
    ...(note === undefined ? {} : { note }),
  });

const INSTRUMENTS: Readonly<Record<GivenField['dimension'], string>> = {
  mass: 'Scale',
  length: 'Ruler',
  angle: 'Level',
  pixels: 'Picture',
  share: 'Estimate',
  force: 'Spring balance',
  moment: 'Spring balance',
  time: 'Stopwatch',
  inertia: 'Estimate',
  number: 'Estimate',
};

/** "Scale: ± 5 g, hard limits, since kitchen scales show steps of 1 to 5 g and stick a little." */
export function suggestion(field: GivenField, unit: string): string {
  const { plusMinus: usual } = field;
  if (usual === null) return '';
  const { kind, reason } = field.plusMinusWhenTyped ?? usual;
  const width = withUnit(plusMinusPlaceholder(field, unit, true), unit);
  const law = kind === 'limits' ? ', hard limits,' : ',';
  return keepNumbers(`${INSTRUMENTS[field.dimension]}: ± ${width}${law} since ${reason}.`);
}

/** The suggested ± of some givens, each reason once. */
export function suggestions(state: BuildState, paths: readonly string[]): TemplateResult | typeof nothing {
  const lines = new Set(
    paths.flatMap((path) => {
      const placed = givensByPath(state).get(path);
      return placed?.field.plusMinus ? [suggestion(placed.field, placed.given.unit)] : [];
    }),
  );
  if (lines.size === 0) return nothing;
  return html`<div class="suggested">
    <p><b>Suggested ±</b>, in gray until you type your own:</p>
    <ul>
      ${[...lines].map((line) => html`<li>${line}</li>`)}
    </ul>
  </div>`;
}
