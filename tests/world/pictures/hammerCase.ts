import { emptyGiven, emptyState } from '../../../src/sheet/empty';
import type { BuildState } from '../../../src/sheet/schema';
import type { Vector } from '../../demo/world/vector';
import { pictureOf, typist } from './givens';
import type { Drawn, Marked, Shot } from './givens';
import { HAMMER } from './hammer';
import { COVERAGE, anyDistance, anyLens, anyRoll, streamsOf, take } from './laws';
import type { Camerawork, Without } from './laws';
import { frame, hungPose } from './shots';

/** One set of photographs of the hammer, hung from each of its ties; no picture shows it standing. */

const CAMERAWORK: Camerawork = {
  draws: 616,
  distance: anyDistance(0.9, 3),
  roll: anyRoll,
  radial: anyLens,
  film: '2 megapixels',
  zoomed: { right: [0.00035, 0.00042], rear: [0.00035, 0.00042] },
};
/** A hammer is alike on both sides: its CG lies on its middle plane but for the grain, ± mm. */
const LATERAL = 2;
/** A string tied around it finds the middle by eye, ± mm. */
const TIE = 5;
/** Typed ±, mm: of the distance of the two marks, and of what lies in front of the middle plane. */
const SCALE = 1;
const DEPTH = 2;

export function drawHammer(n: number, without: Without): Drawn {
  const { camera, typed: draw } = streamsOf(CAMERAWORK.draws, n);
  const radial = CAMERAWORK.radial(camera);
  const across = without.has('lateral') ? 0 : (LATERAL / COVERAGE / 1000) * camera.normal();
  const cg: Vector = [HAMMER.cg[0], HAMMER.cg[1] + across, HAMMER.cg[2]];
  const scaleMarks: Marked[] = HAMMER.scaleMarks.map((place, i) => ({
    role: i === 0 ? 'scale 1' : 'scale 2',
    place,
  }));
  const shots = HAMMER.ties.map((tie, i): Shot => {
    const { hold, film, twist, off } = take(
      CAMERAWORK,
      { seen: 'right', hanging: true, radial },
      camera,
      without,
    );
    // A string tied around a handle finds the middle by hand.
    const hook: Vector = [tie.place[0], (TIE / COVERAGE / 1000) * camera.normal(), tie.place[2]];
    const pose = hungPose(cg, hook, 'right', twist);
    return {
      id: `hang ${i + 1}`,
      view: 'right',
      hook: null,
      hanging: true,
      suspension: 'locked',
      pose,
      camera: frame(pose, 'right', HAMMER.box, film, hold, true, off),
      marked: [
        ...scaleMarks,
        ...HAMMER.marks.map(({ key, place }): Marked => ({ role: `mark ${key}`, place })),
      ],
      focalLength: null,
    };
  });
  const { ruled, depth } = typist(draw, without);
  const [first, second] = HAMMER.scaleMarks;
  const state: BuildState = {
    ...emptyState('object'),
    body: 'object',
    scaleFrom: 'two points',
    scaleDistance: ruled(second[0] - first[0], SCALE),
    scaleDepth: depth(-first[1], DEPTH),
    lateral: { text: '0', unit: 'mm', plusMinus: String(LATERAL), kind: 'expanded' },
    bodyMarks: HAMMER.marks.map(({ key, place }) => ({
      key,
      name: `sticker ${key}`,
      depth: depth(-place[1], DEPTH),
      ahead: emptyGiven('mm'),
      height: emptyGiven('mm'),
    })),
    pictures: shots.map((each) => pictureOf(draw, each, without)),
  };
  return { state, cg, shots };
}
