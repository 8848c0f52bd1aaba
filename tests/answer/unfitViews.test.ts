import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import type { BuildState, MarkRole } from '../../src/sheet/schema';
import { valueOf } from '../physics/given';
import { drawCase } from '../world/pictures/cases';

const { state } = drawCase('rear', 0);
const SWAPPED: Readonly<Partial<Record<MarkRole, MarkRole>>> = {
  'ground left': 'ground right',
  'ground right': 'ground left',
};
const fromTheSide = (of: BuildState): BuildState => ({
  ...of,
  pictures: of.pictures.filter(({ view }) => view === 'right' || view === 'left'),
});

describe('pictures from the rear that fit no place of the truck', () => {
  const swapped: BuildState = {
    ...state,
    pictures: state.pictures.map((picture) => ({
      ...picture,
      marks: picture.marks.map((mark) => ({ ...mark, role: SWAPPED[mark.role] ?? mark.role })),
    })),
  };

  it('are told, and leave the answer of the side pictures as it is', () => {
    const answer = benchAnswer(swapped);
    expect(valueOf(answer.cg)).toEqual(valueOf(benchAnswer(fromTheSide(state)).cg));
    const unused = answer.warnings.filter(({ code }) => code === 'pictures unused');
    expect(unused.map(({ title }) => title)).toEqual(['Pictures from the rear are not counted.']);
  });

  it('count where they fit', () => {
    const answer = benchAnswer(state);
    expect(answer.warnings.filter(({ code }) => code === 'pictures unused')).toEqual([]);
    expect(answer.otherLines.length).toBeGreaterThan(0);
    expect(valueOf(answer.cg).left.u).toBeLessThan(valueOf(benchAnswer(fromTheSide(state)).cg).left.u);
  });
});
