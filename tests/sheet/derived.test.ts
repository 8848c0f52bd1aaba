import { describe, expect, test } from 'vitest';
import { hubDepth, markUncertainty, partsList, unsprungMasses } from '../../src/sheet/derived';
import { emptyPart, emptyPicture, emptyState } from '../../src/sheet/empty';
import { tolerance } from '../tolerances';
import type { BuildState, Carrier, Part } from '../../src/sheet/schema';

const part = (name: string, carrier: Carrier, grams: string): Part => {
  const made = { ...emptyPart(), name, carrier };
  made.mass.text = grams;
  made.ahead.text = '100';
  made.height.text = '50';
  return made;
};

function state(change: (draft: BuildState) => void): BuildState {
  const made = emptyState();
  made.mass.text = '3000';
  change(made);
  return made;
}

const unsprung = (from: BuildState) => {
  const result = unsprungMasses(from);
  if (!result.ok) throw new Error(result.message);
  return result.value;
};

describe('unsprung mass of an axle', () => {
  test('as given', () => {
    const { front, rear } = unsprung(
      state((draft) => {
        draft.unsprungFront.text = '620';
        draft.unsprungFront.plusMinus = '10';
      }),
    );
    expect(front).toMatchObject({ value: 0.62, from: 'given' });
    expect(rear.from).toBe('default');
  });

  test('else the parts of that axle', () => {
    const { front, rear } = unsprung(
      state((draft) =>
        draft.parts.push(
          part('axle', 'front axle', '300'),
          part('wheels', 'front axle', '320'),
          part('body', 'body', '900'),
        ),
      ),
    );
    expect(front).toMatchObject({ value: 0.62, from: 'parts list' });
    // Two parts with limits ±2 g each: u = √2 · 2/√3 g.
    expect(Math.abs(front.u - (Math.SQRT2 * 0.002) / Math.sqrt(3))).toBeLessThan(
      tolerance('sheet: unit conversion'),
    );
    expect(rear.from).toBe('default');
  });

  test('else a share that spans scale bodies: 35 to 55 % of the truck on both axles together', () => {
    const { front } = unsprung(state(() => undefined));
    expect(front.from).toBe('default');
    const low = 2 * (front.value - 1.959964 * front.u);
    const high = 2 * (front.value + 1.959964 * front.u);
    expect(low / 3).toBeLessThanOrEqual(0.35);
    expect(high / 3).toBeGreaterThanOrEqual(0.55);
  });

  test('is refused with the field’s message where something cannot be read', () => {
    expect(unsprungMasses(state((draft) => void (draft.unsprungRear.text = 'much')))).toMatchObject({
      message:
        'Rear unsprung mass: needs a number; got “much”. Weigh axle, wheels, tires and half the links together, or leave it empty.',
    });
    expect(unsprungMasses(state((draft) => void (draft.mass.text = '')))).toMatchObject({ reason: 'empty' });
    const broken = part('axle', 'front axle', '');
    expect(unsprungMasses(state((draft) => void draft.parts.push(broken)))).toMatchObject({
      message:
        'axle, mass: needs a number; nothing is entered. Weigh the part; a removed part has a negative mass.',
    });
  });
});

test('the parts list comes in SI, with removed parts negative', () => {
  const list = partsList(state((draft) => void draft.parts.push(part('bumper', 'body', '-120'))));
  expect(list).toMatchObject({
    ok: true,
    value: [
      { name: 'bumper', carrier: 'body', mass: { value: -0.12 }, ahead: { value: 0.1 }, left: { value: 0 } },
    ],
  });
});

describe('hub depth', () => {
  const depth = (from: BuildState): number => {
    const result = hubDepth(from);
    if (!result.ok) throw new Error(result.message);
    return Math.round(result.value.value * 1000);
  };
  test('as given, else from the outside width, else the usual one', () => {
    expect(depth(state((draft) => void (draft.hubDepth.text = '98')))).toBe(98);
    expect(depth(state((draft) => void (draft.dimensions.outsideWidth.text = '230')))).toBe(105);
    expect(depth(state((draft) => void (draft.dimensions.outsideWidth.text = '210')))).toBe(95);
    expect(depth(state(() => undefined))).toBe(105);
  });
});

describe('a mark’s uncertainty in pixels', () => {
  const u = (
    picturePlusMinus: string,
    markPlusMinus: string,
    kind: 'expanded' | 'limits' = 'expanded',
  ): number => {
    const picture = emptyPicture('standing', 10, 10);
    picture.markPlusMinus = { ...picture.markPlusMinus, text: picturePlusMinus, kind };
    const result = markUncertainty(picture, { plusMinus: markPlusMinus });
    return result.ok ? Math.round(result.value * 1000) / 1000 : NaN;
  };
  test('its own, else the picture’s, else the usual 2 px', () => {
    expect(u('', '')).toBe(1.02);
    expect(u('1.96', '')).toBe(1);
    expect(u('1.96', '3.92')).toBe(2);
    expect(u('3', '', 'limits')).toBe(1.732);
  });
  test('is refused where it is none', () => {
    expect(u('', '0')).toBeNaN();
  });
});
