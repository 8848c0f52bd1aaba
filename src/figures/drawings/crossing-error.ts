import {
  type Angle,
  type Length,
  angleIn,
  degrees,
  errorEllipse,
  independent,
  lengthIn,
  meetingPoint,
  millimeters,
  radians,
  uprightLine,
} from '../../physics';
import { type CrossingError, renderCrossingChart } from '../crossingChart';

/** Sideways standard uncertainty of each line. */
const LINE: Length = millimeters(1);
/** Angles named on the curve. */
const NAMED = [90, 45, 25, 15, 10];

/** Long half axis of the crossing's region (1 u) when two lines, each uncertain by LINE, cross at this angle. */
const worst = (crossing: Angle): CrossingError => {
  const through = { x: millimeters(0), z: millimeters(0) };
  const upright = uprightLine(through.x);
  const lines = [upright, { angle: radians(upright.angle + crossing), through }];
  const point = meetingPoint(lines, independent([0, LINE, 0, LINE]));
  if (!point.ok) throw new Error(point.message);
  return { crossing, error: errorEllipse(point.value.covariance, 1).semiMajor };
};

/** Error of the crossing of two lines against the angle between them, each line uncertain by 1 mm. */
export default function draw(): string {
  const curve = Array.from({ length: 169 }, (_, i) => worst(degrees(6 + i / 2)));
  return renderCrossingChart({
    curve,
    notes: NAMED.map((angle) => worst(degrees(angle))).map((point) => ({
      ...point,
      text: `${lengthIn(point.error, 'mm').toFixed(1)} mm at ${angleIn(point.crossing, 'deg').toFixed(0)}°`,
    })),
    xLabel: 'angle at which the two lines cross',
    yLabel: 'error of the crossing, mm, worst direction',
    description:
      'The error of the crossing stays near 1 mm down to 60 degrees and grows ever faster below 30.',
    top: millimeters(12),
  });
}
