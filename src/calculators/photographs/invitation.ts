import { css, html, nothing, type TemplateResult } from 'lit';
import type { BuildState } from '../../sheet/schema';

/** What an empty sheet shows in place of the figure: what is needed, in the order in which it is done. */
export function invitation(
  body: BuildState['body'],
  demo: () => void,
  measureObject: () => void,
): TemplateResult {
  return html`<div class="invitation">
    <h4 class="section-title">Two strings cross at the center of gravity</h4>
    <ol class="steps">
      ${body === 'object' ? OBJECT_STEPS : TRUCK_STEPS}
    </ol>
    <p class="note">
      The shortest way is two hanging pictures and nothing else: with three corners marked in both, the point
      stands on them at once. Every length after that buys more, step by step.
    </p>
    <p class="note">
      Add pictures above: choose them, drop them here, or paste them. Several at once are fine; you say of
      each what it shows, with one press. Pictures never leave this device: they are read and kept in this
      browser, and nothing is sent anywhere.
      <button class="quiet" type="button" @click=${demo}>Look at the demo truck</button>
      ${
        body === 'truck'
          ? html`<button class="quiet" type="button" @click=${measureObject}>Measure another object</button>`
          : nothing
      }
    </p>
  </div>`;
}

const TRUCK_STEPS = html`<li>
    <b>Standing.</b> One picture of the truck’s side on level ground, camera about as high as its doors,
    square to the side, about 1.5 m away. Measure the wheelbase.
  </li>
  <li>
    <b>Hang it twice</b>, or better three times, from hooks far apart, and take the same side again. Lock the
    suspension at ride height with cable ties if you can.
  </li>
  <li>
    <b>Mark</b> both hubs, three to six sharp corners of the body, the string, and say where each hook sits.
  </li>`;

const OBJECT_STEPS = html`<li>
    <b>Hang it twice</b>, or better three times, from points far apart, the camera square to the same side
    each time, about 1.5 m away.
  </li>
  <li><b>Mark</b> the string and three to six sharp corners that every picture shows, far apart.</li>
  <li>
    <b>Measure</b> between two points you can mark: they give the scale, and the axes the answer is told in.
  </li>`;

export const invitationStyles = css`
  .invitation {
    max-width: 40rem;
    padding-block: 0.5rem;
  }
  .invitation .section-title {
    font-size: 1.0625rem;
  }
`;
