import { html, type TemplateResult } from 'lit';
import type { BuildState, Picture } from '../../sheet/schema';
import type { Sorting } from './filmStrip';
import { pictureName } from './roles';

/** The question an unsorted picture asks where it is looked at enlarged: the same choices as under its small view. */
export function sortNow(
  state: BuildState,
  picture: Picture,
  sort: (id: string, as: Sorting) => void,
): TemplateResult {
  const name = pictureName(state, picture);
  return html`<div class="sort-now">
    <p class="next-step">
      <strong
        >Does ${name.charAt(0).toLowerCase() + name.slice(1)} show the ${state.body} standing or
        hanging?</strong
      >
      <span class="quiet-text">It does not count until you say so.</span>
    </p>
    <div class="button-row">
      <button class="button" type="button" @click=${() => sort(picture.id, 'standing')}>Standing</button>
      <button class="button" type="button" @click=${() => sort(picture.id, 'hanging')}>Hanging</button>
      <button class="quiet" type="button" @click=${() => sort(picture.id, 'left out')}>Leave it out</button>
    </div>
  </div>`;
}
