import { css, html, type TemplateResult } from 'lit';

/** What an empty sheet shows in place of the figure: what is needed, in the order in which it is done. */
export function invitation(demo: () => void): TemplateResult {
  return html`<div class="invitation">
    <h4 class="section-title">Two strings cross at the center of gravity</h4>
    <ol class="steps">
      <li>
        <b>Standing.</b> One picture of the truck’s side on level ground, camera at hub height, square to the
        side, about 1.5 m away. Measure the wheelbase.
      </li>
      <li>
        <b>Hang it twice</b>, or better three times, from hooks far apart, and take the same side again. Lock
        the suspension at ride height with cable ties if you can.
      </li>
      <li>
        <b>Mark</b> both hubs, two to six sharp corners of the body, the string, and say where each hook sits.
      </li>
    </ol>
    <p class="note">
      Add the standing picture above. Pictures stay in this browser; nothing is sent anywhere.
      <button class="quiet" type="button" @click=${demo}>Look at the demo truck</button>
    </p>
  </div>`;
}

export const invitationStyles = css`
  .invitation {
    max-width: 40rem;
    padding-block: 0.5rem;
  }
  .invitation .section-title {
    font-size: 1.0625rem;
  }
`;
