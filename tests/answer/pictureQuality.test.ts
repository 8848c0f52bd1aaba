import { describe, expect, it } from 'vitest';
import { type BenchAnswer, type Warning, benchAnswer } from '../../src/answer/benchAnswer';
import type { BuildState, Picture } from '../../src/sheet/schema';
import { NOTHING, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';

/** Marked without error, so that nothing else is to be told. */
const { state } = simulateBench({
  truck: inventTruck(7),
  pictureSeed: 7,
  suspension: 'locked',
  hooks: ['hood', 'hoop', 'bed'],
  hookSource: 'ruler',
  markSigma: 1.5,
  redraw: NOTHING,
});
/** Hooks by the strings alone, so that nothing but its own two marks tells where a line runs. */
const untied: BuildState = {
  ...state,
  pictures: state.pictures.map((picture) => ({
    ...picture,
    hook: null,
    marks: picture.marks.filter(({ role }) => !role.startsWith('hook ')),
  })),
};
const coded = (answer: BenchAnswer, code: Warning['code']): Warning[] =>
  answer.warnings.filter((warning) => warning.code === code);
const inPicture = (of: BuildState, i: number, change: (picture: Picture) => Picture): BuildState => ({
  ...of,
  pictures: of.pictures.map((picture, k) => (k === i ? change(picture) : picture)),
});
/** The upper mark brought down the string until `part` of it is left. */
const cut = (of: BuildState, i: number, part: number): BuildState =>
  inPicture(of, i, (picture) => {
    const at = (role: string) => picture.marks.find((mark) => mark.role === role);
    const [upper, lower] = [at('string upper'), at('string lower')];
    if (!upper || !lower) throw new Error('a string');
    const x = lower.x + part * (upper.x - lower.x);
    const y = lower.y + part * (upper.y - lower.y);
    return { ...picture, marks: picture.marks.map((mark) => (mark === upper ? { ...mark, x, y } : mark)) };
  });

describe('a string of which little shows', () => {
  it('is told with what its marks’ own ± does at the center of gravity', () => {
    const short = cut(untied, 1, 0.12);
    const answer = benchAnswer(short);
    const [warning] = coded(answer, 'string too short');
    if (!warning?.sizeMm) throw new Error('told');
    expect(warning.picture).toBe(short.pictures[1]?.id);
    expect(warning.text).toContain(`${warning.sizeMm.toFixed(1)} mm`);
    // Each mark moved across the string by its ±, one after the other, and how far the line then passes.
    const [picture] = short.pictures.slice(1);
    if (!picture) throw new Error('a hang');
    const { ahead, height } = valueOf(answer.cg);
    const pass = (of: BuildState): number => {
      const line = benchAnswer(of).lines.find(({ pictureId }) => pictureId === picture.id)?.line;
      if (!line) throw new Error('a line');
      const [dx, dz] = [ahead.value - line.through.x, height.value - line.through.z];
      return 1000 * (Math.cos(line.angle) * dz - Math.sin(line.angle) * dx);
    };
    const plusMinus = 1.96 * 1.5;
    const moved = (role: string) =>
      pass(
        inPicture(short, 1, (each) => ({
          ...each,
          marks: each.marks.map((mark) => (mark.role === role ? { ...mark, x: mark.x + plusMinus } : mark)),
        })),
      ) - pass(short);
    const observed = Math.hypot(moved('string upper'), moved('string lower'));
    expect(Math.abs(warning.sizeMm / observed - 1), `${warning.sizeMm} and ${observed}`).toBeLessThan(
      tolerance('picture quality: damage'),
    );
  });

  it('grows as it gets shorter, and is not told of a long one', () => {
    const size = (part: number) =>
      coded(benchAnswer(cut(untied, 1, part)), 'string too short')[0]?.sizeMm ?? 0;
    expect(size(0.06)).toBeGreaterThan(1.5 * size(0.12));
    expect(size(1)).toBe(0);
  });
});

describe('a view far off square', () => {
  it('is told with its angle and what badly known depths make of it', () => {
    const loose: BuildState = {
      ...state,
      // Told to be anywhere, so that the marks decide.
      pictures: state.pictures.map((picture) => ({
        ...picture,
        oblique: { ...picture.oblique, text: '20', plusMinus: '10' },
      })),
      bodyMarks: state.bodyMarks.map((mark) => ({ ...mark, depth: { ...mark.depth, plusMinus: '60' } })),
    };
    // Foreshortened by cos 35° across the picture's middle: a view that far round the truck.
    const turned = inPicture(loose, 0, (picture) => ({
      ...picture,
      marks: picture.marks.map((mark) => ({
        ...mark,
        x: picture.width / 2 + 0.82 * (mark.x - picture.width / 2),
      })),
    }));
    const [warning] = coded(benchAnswer(turned), 'view too oblique');
    expect(warning?.title).toMatch(/about \d+° off square/);
    expect(warning?.sizeMm).toBeGreaterThan(1.5);
    expect(coded(benchAnswer(state), 'view too oblique')).toEqual([]);
  });
});

describe('a registration worse than expected', () => {
  it('is told in millimeters where no single mark is to blame', () => {
    const ids = new Set<string>();
    for (let angle = 0; angle < 6; angle += 0.4) {
      const by = 5.5 + (angle % 2);
      const noisy = inPicture(state, 2, (picture) => {
        let n = 0;
        return {
          ...picture,
          marks: picture.marks.map((mark) => {
            if (!mark.role.startsWith('mark ')) return mark;
            n += 1;
            const way = angle + 2.4 * n;
            return { ...mark, x: mark.x + by * Math.cos(way), y: mark.y + by * Math.sin(way) };
          }),
        };
      });
      const answer = benchAnswer(noisy);
      for (const { sizeMm, picture, text } of coded(answer, 'registration worse than expected')) {
        expect(text).toContain(`${sizeMm?.toFixed(1)} mm`);
        if (picture) ids.add(picture);
      }
    }
    expect([...ids]).toContain(state.pictures[2]?.id);
    expect(coded(benchAnswer(state), 'registration worse than expected')).toEqual([]);
  });
});
