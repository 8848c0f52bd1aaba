import {
  droopOfCg,
  hangDirection,
  hangLine,
  meters,
  success,
  type Angle,
  type Droop,
  type Length,
  type Mass,
  type PlaneLine,
  type PlanePoint,
  type Result,
} from '../../physics';

/** One axle: what moves with it, and how far it sags straight down in body axes. */
export interface SaggingAxle {
  readonly mass: Mass;
  readonly sag: Length;
}

/** A truck hung by a body hook with sagging axles, in truck axes. */
export interface DroopedHang {
  /** Where the CG is while it hangs. */
  readonly hungCg: PlanePoint;
  /** The way the string runs down from the hook. */
  readonly direction: Angle;
  /** The line brought back to ride height; it holds the CG of the standing truck. */
  readonly corrected: PlaneLine;
  /** How far the uncorrected line misses that CG, along its normal. */
  readonly off: Length;
  /** How much lower the hung CG lies. */
  readonly lower: Length;
}

/** The hang of a body hook with the axles sagging straight down. Refusals as in hangLine() and hangDirection(). */
export function droopedHang(
  hook: PlanePoint,
  cg: PlanePoint,
  front: SaggingAxle,
  rear: SaggingAxle,
  mass: Mass,
): Result<DroopedHang> {
  const droop: Droop = {
    mass,
    front: { mass: front.mass, shift: { x: meters(0), z: meters(-front.sag) } },
    rear: { mass: rear.mass, shift: { x: meters(0), z: meters(-rear.sag) } },
  };
  const shift = droopOfCg(droop);
  const hungCg: PlanePoint = { x: meters(cg.x + shift.x), z: meters(cg.z + shift.z) };
  const direction = hangDirection(hook, hungCg);
  if (!direction.ok) return direction;
  const line = hangLine(hook, 'body', direction.value, droop);
  if (!line.ok) return line;
  return success({
    hungCg,
    direction: direction.value,
    corrected: line.value.line,
    off: line.value.acrossLine,
    lower: meters(-shift.z),
  });
}
