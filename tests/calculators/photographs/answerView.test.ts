import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import {
  cgInHang,
  consistencySentence,
  crossingSentence,
  sideAnswer,
  standingEye,
} from '../../../src/calculators/photographs/answerView';
import { inPicture } from '../../../src/calculators/photographs/scenes';
import { lengthIn, meters } from '../../../src/physics';
import { benchAnswer } from '../../../src/answer/benchAnswer';
import { BenchSheet, type BuildState } from '../../../src/sheet/schema';
import { BRAMBLE } from '../../demo/world/bramble';
import { project } from '../../demo/world/camera';
import { demoPhotographs } from '../../demo/world/demoSheet';
import { inWorld } from '../../demo/world/photograph';
import { centerOfGravity } from '../../demo/world/truck';
import { dot } from '../../demo/world/vector';
import { tolerance } from '../../tolerances';

/** The demo truck's marked pictures against the world they were taken in: its true places through its cameras. */
const file = fileURLToPath(new URL('../../../assets/demo/bramble.json', import.meta.url));
const sheet = v.parse(BenchSheet, JSON.parse(readFileSync(file, 'utf8')));
const photographs = demoPhotographs(BRAMBLE, 1);

function photographOf(id: string) {
  const photograph = photographs.find((candidate) => candidate.id === id);
  if (!photograph) throw new Error(`No photograph ${id}.`);
  return photograph;
}

const photographed = sheet.states.filter(({ pictures }) => pictures.length > 0);

describe.each(photographed.map((state) => [state.id, state] as const))(
  'state %s',
  (_id, state: BuildState) => {
    const answer = benchAnswer(state);

    test('the center of gravity is drawn where it is in every picture', () => {
      const limit = tolerance('photographs: drawn center of gravity');
      for (const picture of state.pictures) {
        const photograph = photographOf(picture.id);
        const truth = project(
          photograph.camera,
          inWorld(photograph, centerOfGravity(BRAMBLE, photograph.droop)),
        );
        const eye = standingEye(answer, picture);
        const drawn =
          picture.kind === 'hanging'
            ? cgInHang(answer, picture)
            : eye && answer.cg.ok
              ? inPicture(eye, { x: answer.cg.value.ahead.value, z: answer.cg.value.height.value })
              : null;
        if (!drawn) throw new Error(`Nothing drawn in ${picture.id}.`);
        const off = { x: drawn.x - truth.x, y: drawn.y - truth.y };
        const at = (role: string) => picture.marks.find((mark) => mark.role === role) ?? { x: NaN, y: NaN };
        const [up, low] = [at('string upper'), at('string lower')];
        const string = { x: low.x - up.x, y: low.y - up.y };
        // Along the string a picture tells little: a view 3° off square slides marks 90 mm in front by 5 mm.
        const miss =
          picture.kind === 'hanging'
            ? Math.abs(off.x * string.y - off.y * string.x) / Math.hypot(string.x, string.y)
            : Math.hypot(off.x, off.y);
        expect(miss, picture.id).toBeLessThan(limit);
      }
    });

    test('every line is drawn through its own band at the center of gravity', () => {
      const { cg, lines } = sideAnswer(state, answer);
      if (!cg) throw new Error('No center of gravity.');
      expect(lines.map(({ label }) => label)).toEqual(['hang 1', 'hang 2', 'hang 3', 'scales']);
      for (const { angle, through, halfBand, label } of lines) {
        const off = -Math.sin(angle) * (cg.x - through.x) + Math.cos(angle) * (cg.z - through.z);
        expect(Math.abs(off), label).toBeLessThan(1.5 * halfBand);
        expect(lengthIn(meters(halfBand), 'mm'), label).toBeGreaterThan(0.2);
      }
    });

    test('the crossing told is the angle between the plumb lines in the truck', () => {
      // Plumb in the truck's own axes: the world's vertical turned back by how the truck hung.
      const plumb = state.pictures
        .filter(({ kind }) => kind === 'hanging')
        .map(({ id }) => {
          const { rotation } = photographOf(id);
          const back = (axis: 0 | 2): number =>
            dot([rotation[0][axis], rotation[1][axis], rotation[2][axis]], [0, 0, 1]);
          return Math.atan2(back(2), back(0));
        });
      const [first = NaN, second = NaN] = plumb;
      const turnBetween = Math.abs(first - second) % Math.PI;
      const degrees = (Math.min(turnBetween, Math.PI - turnBetween) * 180) / Math.PI;
      const told = /hang 1 and hang 2 at (\d+)°/.exec(crossingSentence(state, answer))?.[1];
      expect(Math.abs(Number(told) - degrees)).toBeLessThan(tolerance('photographs: told crossing'));
    });

    test('three good hangs are told to agree', () => {
      expect(consistencySentence(answer)).toMatch(
        /^The three lines leave a triangle \d\.\d\u00a0mm long\. They agree /,
      );
    });
  },
);
