import type { GroundPoint, SpacePoint } from '../places';
import {
  type Angle,
  type Length,
  type Result,
  lengthIn,
  meters,
  radians,
  refusal,
  success,
} from '../quantities';

/**
 * A rigid truck on a plane slope: the polygon its contacts span and the slope at which it tips over each edge.
 *
 * A heading is the direction of downhill seen from above, counter-clockwise from the nose (rad): 0 nose down, 90°
 * left side down, 180° nose up, 270° right side down.
 */

/** A tire's contact with the ground, taken at the tire's center unless said otherwise. */
export interface Contact extends GroundPoint {
  readonly name: string;
}

/** An edge of the support polygon, a line over which the truck can tip. */
export interface SupportEdge {
  /** Its end contacts; the polygon lies to the left of the way from `from` to `to`, seen from above. */
  readonly from: Contact;
  readonly to: Contact;
  /** Heading at which downhill is square to this edge, 0 up to 360° (rad). */
  readonly squareHeading: Angle;
}

/** Convex hull of the contacts on the ground plane. */
export interface SupportPolygon {
  /**
   * Corners counter-clockwise seen from above, from the rearmost (the rightmost of those) on; contacts inside or
   * along an edge are left out. A truck on four wheels keeps the order of truckContacts().
   */
  readonly contacts: readonly Contact[];
  /** edges[i] runs from contacts[i] to the next corner. */
  readonly edges: readonly SupportEdge[];
}

export type PolygonRefusal = 'not-finite' | 'too-few-contacts' | 'in-one-line';
export type TipRefusal = 'not-finite' | 'height' | 'cg-outside';

/** A polygon thinner than this part of its length (m/m) is a line: the limit slope across it means nothing. */
const THINNEST_POLYGON = 1e-6;

const FULL_TURN = 2 * Math.PI;

/** Twice the signed area of the triangle a, b, c: above zero when c lies left of the way from a to b. */
const turn = (a: GroundPoint, b: GroundPoint, c: GroundPoint): number =>
  (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);

const edgeBetween = (from: Contact, to: Contact): SupportEdge => {
  const heading = Math.atan2(-(to.x - from.x), to.y - from.y);
  return { from, to, squareHeading: radians(heading < 0 ? heading + FULL_TURN : heading) };
};

/**
 * Contacts of a truck on four wheels, in the order rear right, front right, front left, rear left, which is
 * counter-clockwise. Tracks are tire center to tire center; add the tread width for the tires' outer edges.
 */
export const truckContacts = (
  wheelbase: Length,
  frontTrack: Length,
  rearTrack: Length,
): readonly [Contact, Contact, Contact, Contact] => [
  { name: 'rear right', x: meters(0), y: meters(-rearTrack / 2) },
  { name: 'front right', x: wheelbase, y: meters(-frontTrack / 2) },
  { name: 'front left', x: wheelbase, y: meters(frontTrack / 2) },
  { name: 'rear left', x: meters(0), y: meters(rearTrack / 2) },
];

/**
 * Support polygon of three or more contacts: their convex hull, by A. M. Andrew's monotone chain, Inf. Proc.
 * Letters 9 (1979) 216. Refused: fewer than three contacts, contacts in one line.
 */
export const supportPolygon = (contacts: readonly Contact[]): Result<SupportPolygon, PolygonRefusal> => {
  if (!contacts.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))) {
    return refusal('not-finite', 'A contact has no place yet. Measure wheelbase and tracks.');
  }
  if (contacts.length < 3) {
    return refusal('too-few-contacts', 'A truck on fewer than three contacts does not stand.');
  }
  const sorted = [...contacts].sort((a, b) => a.x - b.x || a.y - b.y);
  const chain = (points: readonly Contact[]): Contact[] => {
    const kept: Contact[] = [];
    for (const point of points) {
      for (;;) {
        const [before, last] = kept.slice(-2);
        if (before === undefined || last === undefined || turn(before, last, point) > 0) break;
        kept.pop();
      }
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  const corners = [...chain(sorted), ...chain([...sorted].reverse())];
  const [origin] = corners;
  const area = corners.reduce((sum, corner, i) => {
    const next = corners[(i + 1) % corners.length];
    return origin === undefined || next === undefined ? sum : sum + turn(origin, corner, next);
  }, 0);
  const reach = Math.max(
    ...corners.map(({ x, y }) => Math.hypot(x - (origin?.x ?? NaN), y - (origin?.y ?? NaN))),
  );
  if (corners.length < 3 || !(area > THINNEST_POLYGON * reach ** 2)) {
    return refusal(
      'in-one-line',
      'The contacts lie in one line, so the truck falls either way. Check the tracks.',
    );
  }
  const edges = corners.map((from, i) => edgeBetween(from, corners[(i + 1) % corners.length] ?? from));
  return success({ contacts: corners, edges });
};

/** Distance (m) from an edge to a point over the ground, above zero inside the polygon. */
export const distanceFromEdge = (edge: SupportEdge, point: GroundPoint): Length =>
  meters(turn(edge.from, edge.to, point) / Math.hypot(edge.to.x - edge.from.x, edge.to.y - edge.from.y));

/**
 * Slope (rad) at which a CG at `distance` inside an edge and `height` above ground stands over that edge, downhill
 * turned by `offSquare` from square to it: tan(limit) = d/(h cos ψ). 90° where downhill runs along the edge or away
 * from it: no slope tips the truck over that edge.
 */
export const edgeLimit = (distance: Length, height: Length, offSquare: Angle): Angle => {
  const toward = Math.cos(offSquare);
  return radians(toward > 0 ? Math.atan2(distance, height * toward) : Math.PI / 2);
};

/** What keeps a CG from having tip angles on a polygon, or null. */
const cgFault = (polygon: SupportPolygon, cg: SpacePoint): { reason: TipRefusal; message: string } | null => {
  if (![cg.x, cg.y, cg.z].every(Number.isFinite)) {
    return { reason: 'not-finite', message: 'The center of gravity is not known yet.' };
  }
  if (!(cg.z > 0)) {
    return {
      reason: 'height',
      message: 'The CG must lie above the ground to have a tip angle. Check the hooks’ heights.',
    };
  }
  const outside = polygon.edges
    .map((edge) => ({ edge, distance: distanceFromEdge(edge, cg) }))
    .sort((a, b) => a.distance - b.distance)[0];
  if (outside !== undefined && outside.distance < 0) {
    const { from, to } = outside.edge;
    const beyond = lengthIn(meters(-outside.distance), 'mm').toFixed(1);
    return {
      reason: 'cg-outside',
      message:
        `The CG stands ${beyond} mm outside the line from ${from.name} to ${to.name}: ` +
        'the truck falls over on level ground. Check the CG and the tracks.',
    };
  }
  return null;
};

/** Tip angle over one edge. */
export interface EdgeTip {
  readonly edge: SupportEdge;
  /** From the tip line to the CG, seen from above (m). */
  readonly distance: Length;
  /** Least slope that tips the truck over this edge: downhill square to it (rad). */
  readonly angle: Angle;
}

/**
 * Tip angle over every edge, in the polygon's order: atan(d/h). Rigid truck, no sliding, wheels locked. A CG outside
 * the polygon or not above the ground is refused: such a truck does not stand.
 */
export const tipOverEdges = (
  polygon: SupportPolygon,
  cg: SpacePoint,
): Result<readonly EdgeTip[], TipRefusal> => {
  const fault = cgFault(polygon, cg);
  if (fault !== null) return refusal(fault.reason, fault.message);
  return success(
    polygon.edges.map((edge) => {
      const distance = distanceFromEdge(edge, cg);
      return { edge, distance, angle: edgeLimit(distance, cg.z, radians(0)) };
    }),
  );
};

/** The steepest slope a truck stands on at one heading. */
export interface HeadingLimit {
  readonly slope: Angle;
  /** The edge it then tips over, as index into polygon.edges. */
  readonly governing: number;
  /** Limit over every edge at this heading, in the polygon's order; 90° for edges uphill of the CG. */
  readonly perEdge: readonly Angle[];
}

/** Limit slope for any heading (rad): the least of tan(limit) = d/(h cos ψ) over all edges. Refusals as above. */
export const limitSlope = (
  polygon: SupportPolygon,
  cg: SpacePoint,
  heading: Angle,
): Result<HeadingLimit, TipRefusal> => {
  const fault = cgFault(polygon, cg);
  if (fault !== null) return refusal(fault.reason, fault.message);
  if (!Number.isFinite(heading)) return refusal('not-finite', 'The heading is not a number.');
  const perEdge = polygon.edges.map((edge) =>
    edgeLimit(distanceFromEdge(edge, cg), cg.z, radians(heading - edge.squareHeading)),
  );
  const slope = radians(Math.min(...perEdge));
  return success({ slope, governing: perEdge.indexOf(slope), perEdge });
};

/**
 * Static stability factor t/(2h), the tangent of the side tip angle with the CG on center. Definition of the
 * National Highway Traffic Safety Administration, 65 FR 34998 (2000). Track and height in the same unit.
 */
export const staticStabilityFactor = (track: Length, height: Length): Result<number, 'dimension'> =>
  track > 0 && height > 0 && track < Infinity && height < Infinity
    ? success(track / (2 * height))
    : refusal('dimension', 'Track and CG height must be above zero.');
