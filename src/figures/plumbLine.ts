import { svg, type SVGTemplateResult } from 'lit';
import { coordinate as c, type Point } from './geometry';

/** A straight line with its paper casing under it, so that it reads over the truck or a photograph. */
export const casedLine = (from: Point, to: Point, classes: string): SVGTemplateResult =>
  svg`<line class="casing" x1=${c(from.x)} y1=${c(from.y)} x2=${c(to.x)} y2=${c(to.y)}></line>
    <line class="line ${classes}" x1=${c(from.x)} y1=${c(from.y)} x2=${c(to.x)} y2=${c(to.y)}></line>`;

/** Plumb line, hub line, center line: long-short chain. */
export const plumbLine = (from: Point, to: Point): SVGTemplateResult => casedLine(from, to, 'line-chain');

/** The string outside the truck: solid blue. */
export const stringLine = (from: Point, to: Point): SVGTemplateResult => casedLine(from, to, 'line-string');

/** The hook a string is tied to. */
export const hookSign = ({ x, y }: Point): SVGTemplateResult =>
  svg`<circle class="hook" cx=${c(x)} cy=${c(y)} r="5"></circle>`;

/** A body mark: a sighted ring in blue, red where it is set aside. */
export const bodyMarkSign = ({ x, y }: Point, aside = false): SVGTemplateResult => {
  const sight = [
    [0, -1],
    [0, 1],
    [-1, 0],
    [1, 0],
  ] as const;
  const d = sight
    .map(([a, b]) => `M${c(x + a * 2.5)} ${c(y + b * 2.5)}L${c(x + a * 9)} ${c(y + b * 9)}`)
    .join('');
  return svg`<g aria-hidden="true"><circle class="casing" cx=${c(x)} cy=${c(y)} r="6"></circle>
    <path class="casing" d=${d}></path>
    <circle class="mark ${aside ? 'mark-aside' : ''}" cx=${c(x)} cy=${c(y)} r="6"></circle>
    <path class="mark ${aside ? 'mark-aside' : ''}" d=${d}></path></g>`;
};
