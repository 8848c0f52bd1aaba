import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blurCrop, cropAround, fromCrop, toCrop } from '../../../../src/calculators/photographs/finder/crop';
import { blurDamage, wayOf } from '../../../../src/calculators/photographs/finder/blurWarning';
import {
  findingOf,
  foundMark,
  mayTake,
  misses,
  ownMarks,
  plusMinusOf,
  refusedBefore,
  standingOfFinding,
  type Finding,
} from '../../../../src/calculators/photographs/finder/finding';
import { findingWords } from '../../../../src/calculators/photographs/finder/findingWords';
import { emptyPicture } from '../../../../src/sheet/empty';
import type { Mark, MarkRole, Picture } from '../../../../src/sheet/schema';

const hand = (role: MarkRole, x: number, y: number): Mark => ({
  role,
  x,
  y,
  plusMinus: '',
  counted: true,
  source: 'hand',
});

const OWN = [hand('string upper', 105, 50), hand('string lower', 96, 450)] as const;
const PLACED = [
  foundMark('string upper', { x: 100, y: 50 }, 0.06, true),
  foundMark('string lower', { x: 100, y: 450 }, 0.08, true),
] as const;

/** An upright string at x = 100, three pixels wide. */
const STRING: Finding = {
  pictureId: 'p',
  of: 'string',
  own: OWN,
  before: OWN,
  placed: PLACED,
  shape: {
    kind: 'string',
    string: {
      upper: { x: 100, y: 50 },
      lower: { x: 100, y: 450 },
      u: [0.06, 0.08],
      width: 3,
      contrast: 60,
      bow: 0,
      blur: 0.4,
      onString: { upper: { x: 100, y: 50 }, lower: { x: 100, y: 450 }, u: [0.1, 0.1] },
    },
  },
  unsure: '',
  refused: false,
};

const pictureWith = (marks: readonly Mark[]): Picture => ({
  ...emptyPicture('hanging', 400, 600),
  id: 'p',
  marks: [...marks],
});

describe('the crop that is looked at', () => {
  const place = fc.record({
    x: fc.double({ min: 0, max: 3000, noNaN: true }),
    y: fc.double({ min: 0, max: 2000, noNaN: true }),
  });
  test('holds the marks in whole pixels of the picture, and leads places there and back', () => {
    fc.assert(
      fc.property(place, place, fc.double({ min: 1, max: 300, noNaN: true }), (a, b, margin) => {
        const picture = { width: 3000, height: 2000 };
        const crop = cropAround([a, b], margin, picture);
        for (const size of Object.values(crop)) expect(Number.isInteger(size)).toBe(true);
        expect(crop.x).toBeGreaterThanOrEqual(0);
        expect(crop.x + crop.width).toBeLessThanOrEqual(picture.width);
        expect(crop.y + crop.height).toBeLessThanOrEqual(picture.height);
        for (const { x, y } of [a, b]) {
          const inside = toCrop({ x, y }, crop);
          expect(inside.x).toBeGreaterThanOrEqual(0);
          expect(inside.x).toBeLessThanOrEqual(crop.width);
          expect(inside.y).toBeLessThanOrEqual(crop.height);
          expect(fromCrop(inside, crop).x).toBeCloseTo(x, 9);
          expect(fromCrop(inside, crop).y).toBeCloseTo(y, 9);
        }
      }),
    );
  });
});

describe('a found mark', () => {
  test('has 1.96 u as its ±, up to the next tenth of a pixel and never none', () => {
    expect(plusMinusOf(0.06)).toBe('0.2');
    expect(plusMinusOf(0.2)).toBe('0.4');
    expect(plusMinusOf(0.001)).toBe('0.1');
    expect(plusMinusOf(0.1 / 1.959964)).toBe('0.1');
  });

  test('is looked for on strings, body marks, hubs and points of known distance only', () => {
    expect(findingOf('string lower')).toBe('string');
    expect(findingOf('mark C')).toBe('mark C');
    expect(findingOf('front hub')).toBe('front hub');
    expect(findingOf('scale 2')).toBe('scale 2');
    expect(findingOf('ground rear')).toBeNull();
    expect(findingOf('hook hood')).toBeNull();
  });
});

describe('a finding', () => {
  test('is told by where the marks stand now', () => {
    expect(standingOfFinding(STRING, pictureWith(PLACED))).toBe('taken');
    expect(standingOfFinding(STRING, pictureWith(OWN))).toBe('offered');
    expect(standingOfFinding({ ...STRING, placed: [], shape: null }, pictureWith(OWN))).toBe('unsure');
    expect(standingOfFinding(STRING, pictureWith([hand('string upper', 90, 50), OWN[1]]))).toBeNull();
    expect(standingOfFinding(STRING, pictureWith([OWN[0]]))).toBeNull();
  });

  test('measures from the string across it, and from a round straight', () => {
    expect(misses(STRING)).toEqual([5, 4]);
    const round: Finding = {
      ...STRING,
      of: 'mark A',
      own: [hand('mark A', 13, 24)],
      placed: [foundMark('mark A', { x: 10, y: 20 }, 0.05, true)],
      shape: {
        kind: 'round',
        round: { center: { x: 10, y: 20 }, diameter: 12, u: 0.05, contrast: 80, roundness: 1 },
      },
    };
    expect(misses(round)).toEqual([5]);
  });

  test('remembers where the reader had a mark that it moved, and only that', () => {
    expect(ownMarks(PLACED, STRING)).toEqual(OWN);
    const dragged = hand('string upper', 130, 20);
    expect(ownMarks([dragged, PLACED[1]], STRING)).toEqual([dragged, OWN[1]]);
    expect(ownMarks(PLACED, undefined)).toEqual(PLACED);
  });

  test('refused before is known again by its line, wherever the marks slid along it', () => {
    const refused = { ...STRING, refused: true };
    const along = [
      foundMark('string upper', { x: 100.4, y: 20 }, 0.06, true),
      foundMark('string lower', { x: 99.6, y: 300 }, 0.06, true),
    ];
    expect(refusedBefore({ ...STRING, placed: along }, refused)).toBe(true);
    expect(refusedBefore({ ...STRING, placed: along }, STRING)).toBe(false);
    const other = [foundMark('string upper', { x: 108, y: 20 }, 0.06, true), along[1] ?? OWN[1]];
    expect(refusedBefore({ ...STRING, placed: other }, refused)).toBe(false);
  });

  test('is said with its width, its distance from the marks and its ±', () => {
    const said = (standing: 'taken' | 'offered' | 'unsure', perMm: number | null, finding = STRING) => {
      const { lead, rest } = findingWords(finding, standing, perMm);
      return `${lead} ${rest}`.replaceAll('\u00a0', ' ');
    };
    expect(said('taken', null)).toBe(
      'String found, 3.0 px wide. Your marks moved 5.0 px and 4.0 px onto its middle; now ± 0.2 px.',
    );
    expect(said('offered', 2)).toBe(
      'The string runs beside your marks, 5.0 px (2.5 mm) and 4.0 px (2.0 mm) off the upper and the lower; 3.0 px wide, ± 0.2 px. Your own marks stand.',
    );
    expect(
      said('unsure', null, { ...STRING, placed: [], shape: null, unsure: 'Two run side by side.' }),
    ).toBe('No string is sure here. Two run side by side. Your marks stay where you set them.');
  });
});

describe('what may move a mark unasked', () => {
  const round = (of: MarkRole, diameter: number, off: number): Finding => ({
    ...STRING,
    of,
    own: [hand(of, off, 0)],
    placed: [foundMark(of, { x: 0, y: 0 }, 0.05, true)],
    shape: {
      kind: 'round',
      round: { center: { x: 0, y: 0 }, diameter, u: 0.05, contrast: 80, roundness: 1 },
    },
  });

  test('is a string, and a sticker pressed near its center', () => {
    expect(mayTake(STRING, null)).toBe(true);
    expect(mayTake(round('mark A', 24, 6), null)).toBe(true);
    expect(mayTake(round('mark A', 60, 20), 4)).toBe(true);
  });

  test('is no wheel that a body mark lies on, and no rim around a hub', () => {
    expect(mayTake(round('mark A', 100, 40), null)).toBe(false);
    expect(mayTake(round('mark A', 190, 5), 2)).toBe(false);
    expect(mayTake(round('rear hub', 96, 2), 2)).toBe(false);
    expect(mayTake(round('rear hub', 24, 2), null)).toBe(false);
    expect(mayTake(round('rear hub', 24, 2), 2)).toBe(true);
  });
});

describe('blur', () => {
  const blur = (widthPx: number, ratio = 4) => ({ pictureId: 'p', widthPx, ratio, direction: 0 });

  test('costs half its smear, and is told where that is more than the marks’ own ±', () => {
    expect(blurDamage(blur(8), 2)).toBe(4);
    expect(blurDamage(blur(8), 4)).toBeNull();
    expect(blurDamage(blur(3.9), 2)).toBeNull();
    // As wide in every direction: a lens out of focus, or texture, but no motion.
    expect(blurDamage(blur(8, 1.2), 2)).toBeNull();
    expect(blurDamage(null, 2)).toBeNull();
  });

  test('runs the way it is seen in the picture, y down', () => {
    expect([0, 0.8, 1.6, 2.4, 3.1].map(wayOf)).toEqual([
      'level',
      'down to the right',
      'upright',
      'up to the right',
      'level',
    ]);
  });

  test('is looked at around the marks, in the middle of them where they lie far apart', () => {
    const picture = { width: 4000, height: 3000 };
    expect(
      blurCrop(
        [
          { x: 500, y: 500 },
          { x: 700, y: 600 },
        ],
        picture,
      ),
    ).toEqual({
      x: 440,
      y: 440,
      width: 320,
      height: 220,
    });
    expect(
      blurCrop(
        [
          { x: 500, y: 500 },
          { x: 3500, y: 600 },
        ],
        picture,
      ),
    ).toEqual({
      x: 1550,
      y: 440,
      width: 900,
      height: 220,
    });
  });
});
