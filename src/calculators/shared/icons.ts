import { html, type TemplateResult } from 'lit';

/** Line icons of panel headers and buttons, 20 px, in the color of the words beside them; never without words. */
const icon = (path: string): TemplateResult => html`
  <svg class="icon" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
    <path d=${path}></path>
  </svg>
`;

export const undoIcon = icon('M7.5 3.5 3.5 7.5l4 4M4 7.5h7.5a4.5 4.5 0 0 1 0 9H8');
export const redoIcon = icon('m12.5 3.5 4 4-4 4M16 7.5H8.5a4.5 4.5 0 0 0 0 9H12');
export const printIcon = icon('M6 7V2.5h8V7M6 14H3V7h14v7h-3M6 11.5h8v6H6z');
export const arrowIcon = icon('M3 10h13.5M11.5 4.5 17 10l-5.5 5.5');
export const chevronUpIcon = icon('m4.5 12.5 5.5-5.5 5.5 5.5');
export const chevronDownIcon = icon('m4.5 7.5 5.5 5.5 5.5-5.5');
export const checkIcon = icon('m3.5 10.5 4.5 4.5 8.5-10');
export const closeIcon = icon('m4.5 4.5 11 11M15.5 4.5l-11 11');
export const dragIcon = icon('M10 2.5v15M5.5 7 10 2.5 14.5 7M5.5 13l4.5 4.5 4.5-4.5');
