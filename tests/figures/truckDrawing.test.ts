// @vitest-environment happy-dom
import fc from 'fast-check';
import { html } from 'lit';
import { describe, expect, it } from 'vitest';
import {
  drawableSizes,
  DRAWN_SIZES,
  rearParts,
  sideParts,
  topParts,
  truckFromTheSide,
  type TruckSizes,
} from '../../src/figures';
import { lengthIn, meters, millimeters } from '../../src/physics';
import { tolerance } from '../tolerances';
import { rendered } from './scenes';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map(millimeters);
const anyTruck: fc.Arbitrary<TruckSizes> = fc.record({
  wheelbase: size(150, 600),
  frontTrack: size(100, 300),
  rearTrack: size(100, 300),
  frontTireRadius: size(30, 90),
  rearTireRadius: size(30, 90),
  tireWidth: size(20, 70),
});

/** A place through an SVG matrix(…) as SVG 2 defines it. */
const through = (transform: string | undefined, x: number, z: number): { x: number; z: number } => {
  const [a = NaN, b = NaN, c = NaN, d = NaN, e = NaN, f = NaN] = (transform ?? '')
    .replace(/^matrix\(|\)$/g, '')
    .split(' ')
    .map(Number);
  return { x: a * x + c * z + e, z: b * x + d * z + f };
};
const near = (value: number, wanted: number): void =>
  expect(Math.abs(value - wanted)).toBeLessThan(tolerance('figures: placed drawing'));

describe('truck drawing', () => {
  it('stands with its hubs and contacts where the sizes say, seen from the side', () => {
    fc.assert(
      fc.property(anyTruck, (truck) => {
        const { body, rearWheel, frontWheel } = sideParts(truck);
        const wheelbase = lengthIn(truck.wheelbase, 'mm');
        const rearHub = through(rearWheel, 0, 0);
        const frontHub = through(frontWheel, 0, 0);
        near(rearHub.x, 0);
        near(rearHub.z, lengthIn(truck.rearTireRadius, 'mm'));
        near(frontHub.x, wheelbase);
        near(frontHub.z, lengthIn(truck.frontTireRadius, 'mm'));
        // A drawn wheel reaches 55 mm down from its hub.
        near(through(rearWheel, 0, -55).z, 0);
        near(through(frontWheel, 0, -55).z, 0);
        // The body's own hub places, drawn at (0, 55) and (313, 55), come with it.
        near(through(body, 0, 55).z, rearHub.z);
        near(through(body, 313, 55).x, wheelbase);
        near(through(body, 313, 55).z, frontHub.z);
      }),
    );
  });

  it('stands with its tire centers on the track, from behind and above', () => {
    fc.assert(
      fc.property(anyTruck, (truck) => {
        const { leftTire, rightTire } = rearParts(truck);
        near(through(leftTire, 0, 0).x, -lengthIn(truck.rearTrack, 'mm') / 2);
        near(through(rightTire, 0, 0).x, lengthIn(truck.rearTrack, 'mm') / 2);
        near(
          Math.abs(through(rightTire, 22, 0).x - through(rightTire, -22, 0).x),
          lengthIn(truck.tireWidth, 'mm'),
        );
        const [rearLeft, rearRight, frontLeft] = topParts(truck).tires;
        near(through(rearLeft, 0, 0).z, lengthIn(truck.rearTrack, 'mm') / 2);
        near(through(rearRight, 0, 0).z, -lengthIn(truck.rearTrack, 'mm') / 2);
        near(through(frontLeft, 0, 0).z, lengthIn(truck.frontTrack, 'mm') / 2);
        near(through(frontLeft, 0, 0).x, lengthIn(truck.wheelbase, 'mm'));
      }),
    );
  });

  it('fades and thins by class only', () => {
    const box = rendered(html`<svg>${truckFromTheSide(DRAWN_SIZES, { faded: true, small: true })}</svg>`);
    expect(box.querySelector('.truck-faded.truck-small')).not.toBeNull();
  });

  it('draws half-filled sheets at the sizes it was made with', () => {
    expect(drawableSizes({})).toEqual(DRAWN_SIZES);
    const some = drawableSizes({
      wheelbase: meters(NaN),
      frontTrack: millimeters(200),
      rearTireRadius: meters(-1),
    });
    expect(some.wheelbase).toBe(DRAWN_SIZES.wheelbase);
    expect(some.rearTrack).toBe(millimeters(200));
    expect(some.rearTireRadius).toBe(DRAWN_SIZES.rearTireRadius);
  });
});
