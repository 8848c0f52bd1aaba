import type { Vector } from '../../demo/world/vector';
import { add, scale } from '../../demo/world/vector';

/**
 * An invented hammer: an ash handle, and a steel head around it. Its own axes: origin at the first of two marks on the
 * handle's middle line, x toward the second, y away from the camera, z across.
 */

/** kg/m³, handbook values: carbon steel; European ash, dry. */
const STEEL = 7850;
const ASH = 680;

interface Block {
  readonly mass: number;
  readonly middle: Vector;
}

const block = (density: number, low: Vector, high: Vector, fill = 1): Block => ({
  mass: density * fill * (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2]),
  middle: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2],
});

/** An ellipse's part of the rectangle around it. */
const OVAL = Math.PI / 4;

const EYE: readonly [Vector, Vector] = [
  [0.275, -0.008, -0.011],
  [0.301, 0.008, 0.011],
];
const blocks: readonly Block[] = [
  // Thick where the hand holds it, thinner toward the head, through the eye.
  block(ASH, [-0.034, -0.0115, -0.017], [0.11, 0.0115, 0.017], OVAL),
  block(ASH, [0.11, -0.009, -0.0125], [0.275, 0.009, 0.0125], OVAL),
  block(ASH, ...EYE),
  // Face, cheeks around the eye, peen.
  block(STEEL, [0.274, -0.0135, -0.062], [0.302, 0.0135, -0.016]),
  block(STEEL, [0.275, -0.013, -0.016], [0.301, 0.013, 0.016]),
  block(-STEEL, ...EYE),
  block(STEEL, [0.278, -0.011, 0.016], [0.298, 0.011, 0.05], 0.75),
];

export const HAMMER = {
  mass: blocks.reduce((sum, { mass }) => sum + mass, 0),
  cg: scale(
    blocks.reduce<Vector>((sum, { mass, middle }) => add(sum, scale(middle, mass)), [0, 0, 0]),
    1 / blocks.reduce((sum, { mass }) => sum + mass, 0),
  ),
  box: [
    [-0.034, -0.0135, -0.062],
    [0.302, 0.0135, 0.05],
  ] as const satisfies readonly [Vector, Vector],
  /** Places of the two marks of known distance, near side. */
  scaleMarks: [
    [0, -0.011, 0],
    [0.24, -0.011, 0],
  ] as const satisfies readonly [Vector, Vector],
  /** Stickers, near side. */
  marks: [
    { key: 'A', place: [0.288, -0.0135, -0.045] },
    { key: 'B', place: [0.288, -0.011, 0.034] },
    { key: 'C', place: [0.12, -0.01, 0.006] },
    { key: 'D', place: [-0.02, -0.0105, -0.008] },
  ] as const satisfies readonly { key: string; place: Vector }[],
  /** Where a string is tied: through the hole at the end, around the face, around the peen. */
  ties: [
    { id: 'end', place: [-0.026, 0, 0.002] },
    { id: 'face', place: [0.287, 0, -0.056] },
    { id: 'peen', place: [0.287, 0, 0.044] },
  ] as const satisfies readonly { id: string; place: Vector }[],
};
