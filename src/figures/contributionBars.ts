import { html, type TemplateResult } from 'lit';
import { coordinate as c } from './geometry';
import { hatchedBar } from './errorEllipse';

/** Longest bar, px. */
export const BAR_WIDTH = 66;

/**
 * A hatched bar for one row of the ± budget: `share` of the longest, 0 to 1. The row's own number stands beside
 * it, so the bar is hidden from assistive technology.
 */
export function contributionBar(share: number, longest = BAR_WIDTH): TemplateResult {
  const width = Number.isFinite(share) ? Math.max(0, Math.min(1, share)) * longest : 0;
  return html`<svg
    class="contribution"
    viewBox="0 0 ${c(longest + 2)} 12"
    width=${c(longest + 2)}
    height="12"
    aria-hidden="true"
  >
    ${hatchedBar(1, 1, width, 10)}
  </svg>`;
}

/** Shares of the largest contribution, for a column of bars; all 0 where nothing contributes. */
export function barShares(contributions: readonly number[]): number[] {
  const sizes = contributions.map(Math.abs);
  const largest = Math.max(0, ...sizes.filter(Number.isFinite));
  return sizes.map((size) => (largest > 0 && Number.isFinite(size) ? size / largest : 0));
}
