import { svg, type SVGTemplateResult } from 'lit';
import type { Picture } from '../../../sheet/schema';
import type { SurfaceScene } from '../markingSurface';
import type { Place } from '../surfaceView';
import { standingOfFinding, type Finding } from './finding';

/** Nearer together than this two edges would run into one, screen pixels. */
const EDGES_APART = 5;
/** A ring smaller than this would hide in the mark's own, screen pixels. */
const SMALLEST_RING = 8;

/** The found string's edges and the found rounds, drawn under the marks; dashed while they are only offered. */
export function withFindings(
  scene: SurfaceScene | null,
  findings: readonly Finding[],
  picture: Picture,
): SurfaceScene | null {
  const shown = findings.flatMap((finding) => {
    const standing = standingOfFinding(finding, picture);
    const classes = standing === 'offered' ? 'line line-found line-hidden' : 'line line-found';
    return finding.shape && standing ? [{ shape: finding.shape, taken: standing === 'taken', classes }] : [];
  });
  if (shown.length === 0) return scene;
  return (at, box, enlarged) => {
    const origin = at({ x: 0, y: 0 });
    const scale = at({ x: 1, y: 0 }).x - origin.x;
    return svg`${scene ? scene(at, box, enlarged) : ''}${shown.map(({ shape, taken, classes }) =>
      shape.kind === 'string'
        ? stringEdges(
            at(shape.string.upper),
            at(shape.string.lower),
            shape.string.width * scale,
            taken,
            classes,
          )
        : ring(at(shape.round.center), (shape.round.diameter / 2) * scale, classes),
    )}`;
  };
}

/**
 * Both edges of the string where they can be told apart, with a tick across at either end. Seen from farther off a
 * string only offered is its middle line; one that is taken has the marks' own line there already.
 */
function stringEdges(
  upper: Place,
  lower: Place,
  width: number,
  taken: boolean,
  classes: string,
): SVGTemplateResult {
  const length = Math.hypot(lower.x - upper.x, lower.y - upper.y) || 1;
  const [nx, ny] = [(lower.y - upper.y) / length, (upper.x - lower.x) / length];
  const beside = (place: Place, by: number) =>
    `${(place.x + nx * by).toFixed(2)} ${(place.y + ny * by).toFixed(2)}`;
  const half = width / 2;
  const lines = width >= EDGES_APART ? [-half, half] : taken ? [] : [0];
  const tick = Math.max(half, 0) + 9;
  const along = lines.map((by) => `M${beside(upper, by)}L${beside(lower, by)}`).join('');
  const across = [upper, lower].map((end) => `M${beside(end, -tick)}L${beside(end, tick)}`).join('');
  return cased(`${along}${across}`, classes);
}

function ring({ x, y }: Place, radius: number, classes: string): SVGTemplateResult {
  const r = Math.max(radius, SMALLEST_RING);
  const d = `M${(x - r).toFixed(2)} ${y.toFixed(2)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;
  return cased(d, classes);
}

const cased = (d: string, classes: string): SVGTemplateResult =>
  svg`<path class="casing casing-found" d=${d}></path><path class=${classes} d=${d}></path>`;
