import { describe, expect, test } from 'vitest';
import { hubDepth, markUncertainty, partsList, truckMass, unsprungMasses } from '../../src/sheet/derived';
import {
  emptyAxleScales,
  emptyPart,
  emptyPicture,
  emptyState,
  emptyTotalMass,
  emptyWheelScales,
} from '../../src/sheet/empty';
import { tolerance } from '../tolerances';
import type { AxleScales, BuildState, Carrier, Part, TotalMass } from '../../src/sheet/schema';

const part = (name: string, carrier: Carrier, grams: string): Part => {
  const made = { ...emptyPart(), name, carrier };
  made.mass.text = grams;
  made.ahead.text = '100';
  made.height.text = '50';
  return made;
};

const weighed = (grams: string, plusMinus = ''): TotalMass => {
  const made = emptyTotalMass();
  made.load.text = grams;
  made.load.plusMinus = plusMinus;
  return made;
};

const axles = (front: string, rear: string): AxleScales => {
  const made = emptyAxleScales();
  made.front.text = front;
  made.rear.text = rear;
  return made;
};

function state(change: (draft: BuildState) => void): BuildState {
  const made = emptyState();
  made.readings.push(weighed('3000'));
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
    expect(unsprungMasses(state((draft) => void (draft.readings = [])))).toMatchObject({ reason: 'empty' });
    const broken = part('axle', 'front axle', '');
    expect(unsprungMasses(state((draft) => void draft.parts.push(broken)))).toMatchObject({
      message:
        'axle, mass: needs a number; nothing is entered. Weigh the part; a removed part has a negative mass.',
    });
  });
});

describe('the truck’s mass', () => {
  const mass = (change: (draft: BuildState) => void) => {
    const result = truckMass(state(change));
    if (!result.ok) throw new Error(result.message);
    const { value, u, from } = result.value;
    return { grams: Math.round(value * 1e7) / 1e4, u: Math.round(u * 1e7) / 1e4, from };
  };
  /** Hand arithmetic in g; limits ±5 g: u = 5/√3 = 2.8868. Scale zero ± 1 g: u = 1/1.959964 = 0.5102. */
  const U = 5 / Math.sqrt(3);
  const ZERO = 1 / 1.959964;
  const rounded = (number: number): number => Math.round(number * 1e4) / 1e4;

  test('is what the whole truck weighed, whatever the axle scales say', () => {
    expect(mass((draft) => void draft.readings.push(axles('1600', '1450')))).toEqual({
      grams: 3000,
      u: rounded(Math.hypot(U, ZERO)),
      from: 'total mass',
    });
  });

  test('of two weighings is their mean by weights 1/u²', () => {
    // u 2 and 1 g: weights 1 to 4, so (3000 + 4·3010)/5 = 3008, u = √(1/(1/4 + 1)) = 0.8944.
    expect(
      mass((draft) => {
        draft.readings = [weighed('3000', '3.919928'), weighed('3010', '1.959964')];
      }),
    ).toEqual({ grams: 3008, u: rounded(Math.hypot(Math.sqrt(0.8), ZERO)), from: 'total mass' });
  });

  test('leaves out what is set aside, empty or unreadable', () => {
    expect(
      mass((draft) => {
        draft.readings = [
          { ...weighed('9000'), counted: false },
          weighed(''),
          weighed('much'),
          axles('1600', '1450'),
        ];
      }),
    ).toEqual({ grams: 3050, u: rounded(Math.hypot(Math.SQRT2 * U, 2 * ZERO)), from: 'scales' });
  });

  test('of four scales has their common zero in it four times', () => {
    expect(
      mass((draft) => {
        const wheels = emptyWheelScales();
        for (const given of [wheels.frontLeft, wheels.frontRight, wheels.rearLeft, wheels.rearRight])
          given.text = '750';
        draft.readings = [wheels];
        draft.instruments.scaleZero.text = '5';
      }),
    ).toEqual({ grams: 2980, u: rounded(Math.hypot(2 * U, 4 * ZERO)), from: 'scales' });
  });

  test('else is the sum of the parts list', () => {
    expect(
      mass((draft) => {
        draft.readings = [];
        draft.parts.push(part('axle', 'front axle', '300'), part('body', 'body', '900'));
      }),
    ).toMatchObject({ grams: 1200, from: 'parts list' });
  });

  test('is refused where nothing tells it: the first fault, else that it is empty', () => {
    expect(truckMass(state((draft) => void (draft.readings = [weighed(''), weighed('much')])))).toMatchObject(
      {
        message:
          'Total mass, reading 2: needs a number; got “much”. Weigh the truck ready to drive, often 2900 g.',
      },
    );
    expect(truckMass(state((draft) => void (draft.readings = [])))).toMatchObject({
      reason: 'empty',
      message:
        'Total mass: needs a number; nothing is entered. Weigh the truck ready to drive, often 2900 g.',
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
