import { lengthIn } from '../../physics';
import { quarters } from '../centerOfGravitySign';
import { coordinate as c, pathThrough, point, type Point } from '../geometry';
import { HAMMER_BLOCKS, HAMMER_HOOKS, HAMMER_LENGTH, hammerCg } from '../hammer';

/** A hammer hung twice, and both lines on one hammer. Only the build draws it. */

interface Place {
  readonly along: number;
  readonly across: number;
}

/** A hammer on the page: px per mm, turn in rad counter-clockwise, and which point of it stands where. */
interface Pose {
  readonly scale: number;
  readonly turn: number;
  readonly fixed: Place;
  readonly at: Point;
}

interface Layout {
  readonly name: 'wide' | 'narrow';
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly string: number;
  readonly butt: Point;
  readonly peen: Point;
  /** Where the butt end of the lying hammer stands. */
  readonly both: Point;
}

const LAYOUTS: readonly Layout[] = [
  {
    name: 'wide',
    width: 580,
    height: 300,
    scale: 0.58,
    string: 44,
    butt: point(44, 52),
    peen: point(280, 52),
    both: point(334, 168),
  },
  {
    name: 'narrow',
    width: 320,
    height: 420,
    scale: 0.58,
    string: 40,
    butt: point(40, 46),
    peen: point(272, 46),
    both: point(56, 352),
  },
];

const cg = (): Place => {
  const { x, z } = hammerCg();
  return { along: lengthIn(x.value, 'mm'), across: lengthIn(z.value, 'mm') };
};

const onPage =
  ({ scale, turn, fixed, at }: Pose) =>
  ({ along, across }: Place): Point => {
    const [a, b] = [along - fixed.along, across - fixed.across];
    const [cos, sin] = [scale * Math.cos(turn), scale * Math.sin(turn)];
    return point(at.x + cos * a - sin * b, at.y - sin * a - cos * b);
  };

/** The turn that brings the line from a hook through the center of gravity upright. */
const hangingTurn = (hook: Place): number =>
  -Math.PI / 2 - Math.atan2(cg().across - hook.across, cg().along - hook.along);

const path = (points: readonly Point[], attributes: string, closed = false): string =>
  `<path d="${pathThrough(points, closed)}" fill="none" ${attributes}/>`;

const label = (at: Point, text: string, anchor = 'middle', weight = 400): string =>
  `<text x="${c(at.x)}" y="${c(at.y)}" text-anchor="${anchor}" font-size="14" font-weight="${weight}" fill="var(--ink)">${text}</text>`;

function hammer(pose: Pose): string {
  const place = onPage(pose);
  const box = (along: readonly [number, number], across: readonly [number, number]): Point[] => [
    place({ along: along[0], across: across[0] }),
    place({ along: along[1], across: across[0] }),
    place({ along: along[1], across: across[1] }),
    place({ along: along[0], across: across[1] }),
  ];
  const steel = HAMMER_BLOCKS.filter(({ material }) => material === 'steel');
  const head = steel[0]?.along ?? [0, 0];
  const across = steel.flatMap((block) => block.across);
  const grip: readonly [number, number] = [0, head[0]];
  const eye = HAMMER_BLOCKS.find(({ material }) => material === 'ash')?.across ?? [0, 0];
  return (
    `<path d="${pathThrough(box(grip, eye), true)}" fill="var(--paper)" stroke="var(--ink)" stroke-width="2"/>` +
    `<path d="${pathThrough(box(head, [Math.min(...across), Math.max(...across)]), true)}" fill="var(--hair)" stroke="var(--ink)" stroke-width="2"/>` +
    path(box([head[0], head[1]], eye), 'stroke="var(--ink)" stroke-width="0.9" stroke-dasharray="6 4"', true)
  );
}

/** The line of a hang inside and beyond the body, in long and short strokes over a casing of paper. */
const chain = (from: Point, to: Point): string =>
  path([from, to], 'stroke="var(--paper)" stroke-width="3"') +
  path([from, to], 'stroke="var(--ink)" stroke-width="1.3" stroke-dasharray="16 4 2.5 4"');

function hung(layout: Layout, hook: Place, at: Point, down: number): string {
  const pose = { scale: layout.scale, turn: hangingTurn(hook), fixed: hook, at };
  return (
    hammer(pose) +
    chain(at, point(at.x, at.y + down)) +
    path([point(at.x, at.y - layout.string), at], 'stroke="var(--blue)" stroke-width="1.8"') +
    `<circle cx="${c(at.x)}" cy="${c(at.y)}" r="4.5" fill="var(--paper)" stroke="var(--blue)" stroke-width="1.6"/>`
  );
}

/** The line through a hook and the center of gravity, beyond both by some millimeters. */
function lineOf(pose: Pose, hook: Place, beyond: number): string {
  const end = cg();
  const [a, b] = [end.along - hook.along, end.across - hook.across];
  const reach = Math.hypot(a, b);
  const at = (length: number): Point =>
    onPage(pose)({
      along: hook.along + (a * length) / reach,
      across: hook.across + (b * length) / reach,
    });
  return chain(at(-beyond), at(reach + beyond));
}

function sign(at: Point): string {
  const radius = 9;
  return (
    `<circle cx="${c(at.x)}" cy="${c(at.y)}" r="${radius + 2.6}" fill="var(--paper)"/>` +
    `<circle cx="${c(at.x)}" cy="${c(at.y)}" r="${radius}" fill="var(--paper)" stroke="var(--ink)" stroke-width="1.6"/>` +
    `<path d="${quarters(at, radius)}" fill="var(--ink)"/>`
  );
}

function drawing(layout: Layout): string {
  const { width, height, scale } = layout;
  const lying: Pose = { scale, turn: 0, fixed: HAMMER_HOOKS.butt, at: layout.both };
  const place = onPage(lying);
  const under = (at: Point, words: string): string => label(point(at.x, at.y), words, 'middle', 650);
  const foot = place({ along: 0, across: -62 }).y;
  const tall = HAMMER_LENGTH * scale;
  const first = layout.butt.y + tall;
  return (
    `<svg class="chart-${layout.name}" viewBox="0 0 ${width} ${height}" aria-hidden="true" focusable="false">` +
    hung(layout, HAMMER_HOOKS.butt, layout.butt, tall + 16) +
    hung(layout, HAMMER_HOOKS.peen, layout.peen, 125 * scale) +
    hammer(lying) +
    lineOf(lying, HAMMER_HOOKS.butt, 40) +
    lineOf(lying, HAMMER_HOOKS.peen, 45) +
    sign(place(cg())) +
    label(place({ along: 140, across: 20 }), 'ash') +
    label(place({ along: 340, across: 48 }), 'steel', 'start') +
    under(point(layout.butt.x + 6, first + 34), 'by the butt') +
    under(point(layout.peen.x - 90, layout.peen.y + 135 * scale + 30), 'by the peen') +
    under(point(place({ along: 150, across: 0 }).x, foot + 16), 'both lines on one hammer') +
    '</svg>'
  );
}

export default function draw(): string {
  return `<div class="chart">${LAYOUTS.map(drawing).join('')}</div>`;
}
