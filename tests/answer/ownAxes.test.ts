import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { readBy } from '../../src/answer/readBy';
import { angleIn } from '../../src/physics';
import { emptyAxleScales, emptyHangLine, emptyHook } from '../../src/sheet/empty';
import type { BuildState, Mark, Picture } from '../../src/sheet/schema';
import { reasonOf, valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { BASE, CENTROID, SCALE, plateState } from './plateState';

/** An object's answer in its own axes, from a flat plate of known centroid seen from far. */

const KEYS = ['A', 'B', 'C', 'D'] as const;
const length = (text: string, unit: 'mm' | 'm', plusMinus: string) => ({
  text,
  unit,
  plusMinus,
  kind: 'expanded' as const,
});

/** The plate, flat and far: every place toward the camera is told. */
function plate(change: (picture: Picture) => Picture = (picture) => picture): BuildState {
  const state = plateState({ keys: KEYS, scaled: true, based: true });
  return {
    ...state,
    scaleDepth: length('0', 'mm', '0.1'),
    bodyMarks: state.bodyMarks.map((mark) => ({ ...mark, depth: length('0', 'mm', '0.1') })),
    pictures: state.pictures.map((picture) => change({ ...picture, distance: length('40', 'm', '1') })),
  };
}
const renamed =
  (names: Readonly<Record<string, Mark['role']>>) =>
  (picture: Picture): Picture => ({
    ...picture,
    marks: picture.marks.map((mark) => ({ ...mark, role: names[mark.role] ?? mark.role })),
  });

/** What is left in a state when a truck's becomes an object's, none of it readable. */
const leftovers = (state: BuildState): BuildState => {
  const rubbish = length('x', 'mm', '');
  const { dimensions } = state;
  const hook = { ...emptyHook(), id: 'old', ahead: rubbish, height: rubbish, left: rubbish };
  return {
    ...state,
    dimensions: { ...dimensions, frontTireRadius: rubbish, rearTrack: rubbish, outsideWidth: rubbish },
    unsprungFront: { ...state.unsprungFront, text: '-1' },
    hubDepth: rubbish,
    hooks: [hook],
    readings: [
      {
        ...emptyAxleScales(),
        front: { ...emptyAxleScales().front, text: '900' },
        rear: { ...emptyAxleScales().rear, text: '800' },
      },
      { ...emptyHangLine(), hook: 'old' },
    ],
    pictures: state.pictures.map((picture, i) => ({
      ...picture,
      hook: 'old',
      suspension: 'free',
      view: i === 0 ? 'left' : 'rear',
      marks: [
        ...picture.marks,
        ...(['ground rear', 'ground front', 'rear hub'] as const).map((role): Mark => ({
          role,
          x: 300,
          y: 700,
          plusMinus: '',
          counted: true,
          source: 'hand',
        })),
      ],
    })),
  };
};

const near = (value: number, millimeters: number) =>
  expect(Math.abs(1000 * value - millimeters)).toBeLessThan(tolerance('own axes: plate'));

describe('an object in its own axes', () => {
  const [[ox, oy], far] = [[SCALE[0].x, SCALE[0].y], SCALE[1].x];

  it('has its center of gravity from the first point toward the second, and across', () => {
    const { axes, ahead, height } = valueOf(benchAnswer(plate()).cg);
    expect(axes).toBe('own');
    near(ahead.value, CENTROID.x - ox);
    near(height.value, CENTROID.y - oy);
  });

  it('has them turned half round where the first point is the right one', () => {
    const turned = plate(renamed({ 'scale 1': 'scale 2', 'scale 2': 'scale 1' }));
    const { ahead, height } = valueOf(benchAnswer(turned).cg);
    near(ahead.value, far - CENTROID.x);
    near(height.value, oy - CENTROID.y);
  });

  it('tips over either end of its base by the angle of a right triangle, whichever is marked first', () => {
    const angles = [CENTROID.x - BASE[0].x, BASE[1].x - CENTROID.x].map(
      (along) => (180 / Math.PI) * Math.atan(along / CENTROID.y),
    );
    for (const [state, expected] of [
      [plate(), angles],
      [plate(renamed({ 'base 1': 'base 2', 'base 2': 'base 1' })), angles.toReversed()],
      [plate(renamed({ 'scale 1': 'scale 2', 'scale 2': 'scale 1' })), angles],
    ] as const) {
      const tips = benchAnswer(state).baseTips ?? [];
      expect(tips.map(({ base }) => base)).toEqual([1, 2]);
      tips.forEach(({ angle }, i) => {
        expect(Math.abs(angleIn(angle.value, 'deg') - (expected[i] ?? NaN))).toBeLessThan(
          tolerance('own axes: tip angle'),
        );
        expect(angle.u).toBeGreaterThan(0);
      });
    }
  });

  it('does not mind what is left of a truck in its state', () => {
    const [bare, full] = [benchAnswer(plate()), benchAnswer(leftovers(plate()))];
    const [before, after] = [valueOf(bare.cg), valueOf(full.cg)];
    expect(after.ahead).toEqual(before.ahead);
    expect(after.height).toEqual(before.height);
    expect(full.entries.every(({ notCounted }) => notCounted !== null)).toBe(true);
  });

  it('does not count a picture that is not sorted', () => {
    const state = plate();
    const [first, second] = state.pictures;
    if (!first || !second) throw new Error('two pictures');
    const answer = benchAnswer({ ...state, pictures: [{ ...first, kind: 'unsorted' }, second] });
    expect(reasonOf(answer.cg)).toBe('missing');
    // The two points are marked in the picture that does not count.
    expect(answer.missing.map(({ what }) => what)).toContain('the first of the two points of known distance');
  });

  it('is told nothing of trucks, whatever is missing or wrong', () => {
    const whole = leftovers(plate());
    const [first, second] = whole.pictures;
    if (!first || !second) throw new Error('two pictures');
    const without = (role: string) => (picture: Picture) => ({
      ...picture,
      marks: picture.marks.filter((mark) => !mark.role.startsWith(role)),
    });
    const strewn = (picture: Picture): Picture => ({
      ...picture,
      marks: picture.marks.map((mark, i) =>
        mark.role.startsWith('mark') ? { ...mark, x: 97 * i, y: 211 * (i % 3) } : mark,
      ),
    });
    const pictures: readonly (readonly Picture[])[] = [
      [],
      [first],
      [first, second],
      [first, first.id === 'hang-1' ? { ...first, id: 'again' } : first],
      [{ ...first, kind: 'standing' }, second],
      [without('scale')(first), second],
      [without('mark')(first), second],
      [without('string')(first), second],
      [first, strewn(second)],
      [{ ...first, counted: false }, second],
      [{ ...first, kind: 'unsorted' }, second],
      [first, { ...second, oblique: { ...second.oblique, text: '30' } }],
      [renamed({ 'scale 1': 'mark A', 'mark A': 'scale 1' })(first), second],
    ];
    for (const each of pictures) {
      const state = { ...whole, pictures: [...each] };
      const answer = benchAnswer(state);
      const told = [
        answer.cg.ok ? '' : answer.cg.message,
        answer.tips.ok ? '' : answer.tips.message,
        answer.next.text,
        ...answer.missing.map(({ what }) => what),
        ...answer.warnings.flatMap(({ title, text }) => [title, text]),
        ...readBy(state, answer).map(({ why }) => why),
      ].join(' ');
      expect(told).not.toMatch(/truck|axle|\bhubs?\b|\btires?\b|wheelbase|center plane|above ground/i);
    }
  });
});
