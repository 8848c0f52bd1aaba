import {
  COVERAGE,
  hangDirection,
  independent,
  meetingPoint,
  meters,
  radians,
  success,
  triangleOfLines,
  type Length,
  type LineTriangle,
  type MeetingPoint,
  type PlaneLine,
  type Result,
} from '../../physics';
import { EXAMPLE_CG, EXAMPLE_HOOKS } from '../shared/exampleTruck';

export type ThreeOffsets = readonly [Length, Length, Length];

/** What three lines, each off sideways by its own amount, say together. */
export interface ThreeLines {
  readonly lines: readonly [PlaneLine, PlaneLine, PlaneLine];
  readonly triangle: LineTriangle;
  readonly meeting: MeetingPoint;
  /** How far the best point stands from the true CG. */
  readonly moved: Length;
}

/** The example truck's three lines of hang, each moved along its normal by `offsets`. */
export function threeLines(offsets: ThreeOffsets): Result<readonly [PlaneLine, PlaneLine, PlaneLine]> {
  const [a, b, c] = EXAMPLE_HOOKS.map(({ at }) => hangDirection(at, EXAMPLE_CG));
  if (!a?.ok || !b?.ok || !c?.ok) throw new Error('An example hook sits at the CG.');
  const lineOf = (index: 0 | 1 | 2, angle: number): PlaneLine => {
    const { at } = EXAMPLE_HOOKS[index];
    const off = offsets[index];
    return {
      angle: radians(angle),
      through: { x: meters(at.x - Math.sin(angle) * off), z: meters(at.z + Math.cos(angle) * off) },
    };
  };
  return success([lineOf(0, a.value), lineOf(1, b.value), lineOf(2, c.value)]);
}

/** Their triangle and the point nearest to all three, every line good to `plusMinus` (1.96 u) sideways. */
export function judgeThreeLines(offsets: ThreeOffsets, plusMinus: Length): Result<ThreeLines> {
  const lines = threeLines(offsets);
  if (!lines.ok) return lines;
  const triangle = triangleOfLines(lines.value);
  if (!triangle.ok) return triangle;
  const u = plusMinus / COVERAGE;
  const meeting = meetingPoint(lines.value, independent([0, u, 0, u, 0, u]));
  if (!meeting.ok) return meeting;
  const { x, z } = meeting.value;
  return success({
    lines: lines.value,
    triangle: triangle.value,
    meeting: meeting.value,
    moved: meters(Math.hypot(x - EXAMPLE_CG.x, z - EXAMPLE_CG.z)),
  });
}
