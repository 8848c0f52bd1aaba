import { html, type TemplateResult } from 'lit';
import type { BuildState, Picture } from '../../../sheet/schema';
import { openSteps } from '../../photographs/roles';

/** A hang in a photograph: its marks and givens stand in chapter 3. */
export function pictureEntry(state: BuildState, picture: Picture): TemplateResult {
  const steps = openSteps(state, picture);
  return html`
    <p class="said">
      ${
        steps.length === 0
          ? 'Its string gives a line through the center of gravity; the body marks carry it to the other pictures.'
          : `Still to do: ${steps.map(({ what }) => what).join(', ')}.`
      }
    </p>
    <a class="button" href="./resultant-lines.html#e3">Open it in chapter 3, E3</a>
  `;
}
