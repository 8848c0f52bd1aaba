import { html, type TemplateResult } from 'lit';
import { angleIn, degrees, lengthIn, type LengthUnit } from '../../physics';
import { fixed } from '../shared/format';
import {
  formula,
  fraction,
  givenNumber,
  letter,
  named,
  number,
  resultNumber,
  row,
  sign,
  thinSpace,
  workingSteps,
} from '../shared/formula';
import { LINE_WORDS, type HeadingView, type TipLimits } from './tipLimits';

/** The limit at a heading, worked as on paper: distance from the tip line, height, and how far off square downhill lies. */
export function tipLinesWorking(
  { truck }: TipLimits,
  view: HeadingView,
  heading: number,
  unit: Extract<LengthUnit, 'mm' | 'in'>,
): TemplateResult {
  const places = unit === 'mm' ? 1 : 2;
  const name = LINE_WORDS[view.way];
  const d = fixed(lengthIn(view.distance, unit), places);
  const h = fixed(lengthIn(truck.cg.z, unit), places);
  const square = fixed(squareDegrees(view), 0);
  const beta = fixed(angleIn(view.limit.atEstimate, 'deg'), 1);
  const psi = letter('ψ');
  return workingSteps([
    {
      sentence: html`The plumb line through the center of gravity meets the ${name} tip line when the slope is
        <b>β</b>. Seen from above the center of gravity stands <b>d</b> inside that line, and <b>h</b> above
        the ground. Only the part of the slope that falls square to the line tips over it, the cosine.`,
      symbols: formula(
        letter('β'),
        sign('='),
        named('arctan'),
        fraction(
          letter('d', name),
          row(
            letter('h'),
            thinSpace,
            named('cos'),
            sign('('),
            psi,
            sign('−'),
            number(`${square}°`),
            sign(')'),
          ),
        ),
      ),
      numbers: formula(
        letter('β'),
        sign('='),
        named('arctan'),
        fraction(
          number(d),
          row(
            number(h),
            thinSpace,
            named('cos'),
            sign('('),
            givenNumber(`${fixed(heading, 0)}°`),
            sign('−'),
            number(`${square}°`),
            sign(')'),
          ),
        ),
      ),
      result: formula(letter('β'), sign('='), resultNumber(`${beta}°`)),
    },
  ]);
}

/** Heading at which downhill is square to the governing line, 0 up to 360°. */
function squareDegrees({ edge }: HeadingView): number {
  const degree = angleIn(edge.squareHeading, 'deg');
  return degree >= angleIn(degrees(359.5), 'deg') ? 0 : degree;
}
