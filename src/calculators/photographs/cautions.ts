import { css, html, nothing, type TemplateResult } from 'lit';
import type { BuildState } from '../../sheet/schema';
import { chevronDownIcon } from '../shared/icons';

/** Hazards of the hanging step: one hazard, one instruction, one reason. */
const OF_A_TRUCK: readonly string[] = [
  'Motor unplugged, transmitter off: a wheel that starts can bite.',
  'Pack strapped in or taken out: a pack that falls can short.',
  'Hook and string rated well above the truck’s mass: knots and eyelets fail first.',
  'Hang it low, over foam: a fall of a hand’s width does no harm.',
  'Hands and faces out from beneath it, also while it swings.',
  'Models only. Never hang, lift or tilt a full-size vehicle at home. Local rules and qualified people come first.',
];

/** As many, of what is no truck. */
const OF_AN_OBJECT: readonly string[] = [
  'Nothing with a blade or a point: it swings, and it may slip.',
  'Battery out, plug pulled: a tool that starts can bite.',
  'Hook and string rated well above its mass: knots and loops slip first.',
  'Hang it low, over foam: a fall of a hand’s width does no harm.',
  'Hands, feet and faces out from beneath it, also while it swings.',
  'Only what one hand lifts with ease. Local rules and qualified people come first.',
];

/** The cautions, open until the reader has hung it twice. */
export function hangingCautions(body: BuildState['body'], open: boolean): TemplateResult {
  return html`<details class="caution" ?open=${open}>
    <summary>
      <span
        >Before you hang it${open ? nothing : html`<span class="quiet-text brief">six cautions</span>`}</span
      >
      ${chevronDownIcon}
    </summary>
    <ul>
      ${(body === 'object' ? OF_AN_OBJECT : OF_A_TRUCK).map((caution) => html`<li>${caution}</li>`)}
    </ul>
  </details>`;
}

export const cautionStyles = css`
  .caution {
    position: relative;
    margin-block: 0.9rem;
    padding-inline-start: 0.95rem;
    font-size: 0.9375rem;
    line-height: 1.4;
  }
  .caution > * {
    box-sizing: border-box;
  }
  .caution::before {
    content: '';
    position: absolute;
    inset-block: 0.2rem;
    inset-inline-start: 0;
    width: 0.5rem;
    border: 1.3px solid var(--rule);
    border-inline-end: 0;
  }
  .caution ul {
    padding: 0 0 0.4rem 1.1rem;
  }
  .caution li + li {
    margin-block-start: 0.15rem;
  }
`;
