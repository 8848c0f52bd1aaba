import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fittedText, textSpan } from '../../src/figures';
import { ADVANCES, advance, someWords } from './textBoxes';

describe('span of a line', () => {
  it.each(Object.keys(ADVANCES))('has room for “%s” in the font of the pages', (sign) => {
    expect(textSpan(sign, 15)).toBeGreaterThanOrEqual(advance(sign, 15));
  });

  it('errs on the wide side by little', () => {
    const text = 'Axle lift, nose up 22°, rear scale 1551 → 1726 g';
    expect(textSpan(text, 15) / advance(text, 15)).toBeLessThan(1.12);
  });
});

describe('text broken to a room', () => {
  it('stays inside it and loses no word unless it says so', () => {
    fc.assert(
      fc.property(
        someWords,
        fc.integer({ min: 40, max: 400 }),
        fc.integer({ min: 1, max: 3 }),
        (text, room, most) => {
          const { lines, whole } = fittedText(text, room, 15, most);
          expect(lines.length).toBeLessThanOrEqual(most);
          for (const line of lines) expect(advance(line, 15)).toBeLessThanOrEqual(room);
          if (whole) expect(lines.join(' ')).toBe(text.split(' ').filter(Boolean).join(' '));
          else expect(lines.at(-1)?.endsWith('…')).toBe(true);
        },
      ),
    );
  });

  it('keeps a number with its unit', () => {
    expect(fittedText('needs 40\u00a0mm more', 60, 15, 9).lines).toContain('40\u00a0mm');
  });

  it('cuts a word that has no room of its own', () => {
    expect(fittedText('Hubs measuredagainandagain', 60, 15, 3)).toEqual({
      lines: ['Hubs', expect.stringMatching(/^meas.*…$/)],
      whole: false,
    });
    expect(fittedText('', 60, 15, 2)).toEqual({ lines: [], whole: true });
    expect(fittedText('W', 1, 15, 2).lines).toEqual(['W…']);
  });
});
