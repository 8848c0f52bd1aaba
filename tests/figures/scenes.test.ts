// @vitest-environment happy-dom
import fc from 'fast-check';
import { html } from 'lit';
import { describe, expect, it } from 'vitest';
import {
  barShares,
  crossing,
  detailFactor,
  detailShapes,
  dimensionLine,
  distance,
  edgeName,
  headingOnPage,
  overlayItems,
  polar,
  roundStep,
  rulerValue,
  rulerX,
  scaleBarLength,
  sidePlace,
  textWidth,
} from '../../src/figures';
import { angleIn, degrees, lengthIn, millimeters } from '../../src/physics';
import { tolerance } from '../tolerances';
import { answer, dialLayout, fromAbove, headingAt, numberOf, polygon, rendered } from './scenes';

describe('heading dial', () => {
  it('reads back the heading it puts its knob at', () => {
    const { center, radius } = dialLayout(480);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), (turn) => {
        const heading = headingAt(center, polar(center, radius, headingOnPage(degrees(turn))));
        expect(heading === null ? NaN : angleIn(heading, 'deg')).toBeCloseTo(turn, 6);
      }),
    );
    expect(headingAt(center, center)).toBeNull();
  });

  it('counts from the nose, up the page, toward the left', () => {
    expect(polar({ x: 0, y: 0 }, 1, headingOnPage(degrees(0))).y).toBeCloseTo(-1);
    expect(polar({ x: 0, y: 0 }, 1, headingOnPage(degrees(90))).x).toBeCloseTo(-1);
  });

  it('names an edge by what its contacts share', () => {
    expect(polygon.edges.map(edgeName)).toEqual(['right', 'front', 'left', 'rear']);
  });

  it('marks where downhill from the CG meets the governing tip line', () => {
    const box = rendered(fromAbove(480));
    const pivot = box.querySelector('.pivot');
    const line = box.querySelector('.line-governing');
    const [x1, y1, x2, y2] = ['x1', 'y1', 'x2', 'y2'].map((name) => numberOf(line, name));
    const [px, py] = [numberOf(pivot, 'cx'), numberOf(pivot, 'cy')];
    const span = Math.hypot((x2 ?? 0) - (x1 ?? 0), (y2 ?? 0) - (y1 ?? 0));
    const off =
      (((x2 ?? 0) - (x1 ?? 0)) * (py - (y1 ?? 0)) - ((y2 ?? 0) - (y1 ?? 0)) * (px - (x1 ?? 0))) / span;
    expect(Math.abs(off)).toBeLessThan(2 * tolerance('figures: page coordinate'));
  });

  it('finds no meeting behind the ray or along it', () => {
    const origin = { x: 0, y: 0 };
    expect(crossing(origin, 0, { x: -5, y: -5 }, { x: -5, y: 5 })).toBeNull();
    expect(crossing(origin, 0, { x: 0, y: 3 }, { x: 9, y: 3 })).toBeNull();
  });
});

describe('dimension line', () => {
  const drawn = (from: number, to: number, text = '148.3') =>
    rendered(html`<svg>${dimensionLine({ from: { x: from, y: 50 }, to: { x: to, y: 50 }, text })}</svg>`);
  const runs = (box: HTMLElement) => [...box.querySelectorAll('.line-dimension')];

  it('is broken for its number, which stands upright in the gap', () => {
    const box = drawn(0, 200);
    const [first, second] = runs(box);
    const gap = numberOf(second ?? null, 'x1') - numberOf(first ?? null, 'x2');
    expect(gap).toBeGreaterThanOrEqual(textWidth('148.3', 15));
    expect(numberOf(box.querySelector('text'), 'x')).toBeCloseTo(100);
    expect(box.querySelector('text')?.hasAttribute('transform')).toBe(false);
  });

  it('has its number beside it where the gap would leave no line', () => {
    const box = drawn(0, 50);
    expect(runs(box).length).toBe(1);
    expect(numberOf(box.querySelector('text'), 'y')).toBeLessThan(50);
  });

  it('is pointed at from outside where not even the arrows fit', () => {
    const box = drawn(0, 6, '3.0');
    expect(numberOf(runs(box)[0] ?? null, 'x1')).toBeLessThan(0);
    expect(numberOf(box.querySelector('text'), 'x')).toBeGreaterThan(6);
  });
});

describe('overlay', () => {
  const project = ({ x, z }: ReturnType<typeof sidePlace>) => ({ x: 100 + 1000 * x, y: 300 - 1000 * z });

  it('draws every chain line along its own line, through its hook', () => {
    const chains = overlayItems(answer, project).filter((item) => item.kind === 'chain');
    expect(chains.length).toBe(3);
    chains.forEach((chain, i) => {
      const line = answer.lines[i];
      if (!line || chain.kind !== 'chain') throw new Error('a chain line for each line');
      const through = project(line.through);
      const [ux, uy] = [Math.cos(line.angle), -Math.sin(line.angle)];
      for (const end of [chain.from, chain.to]) {
        expect(Math.abs((end.x - through.x) * uy - (end.y - through.y) * ux)).toBeLessThan(1e-6);
      }
    });
  });

  it('draws the string outside the truck: from the hook away from the CG', () => {
    const center = project(sidePlace(148, 94));
    const strings = overlayItems(answer, project).filter((item) => item.kind === 'string');
    expect(strings.length).toBe(2);
    for (const item of strings) {
      if (item.kind === 'string')
        expect(distance(item.to, center)).toBeGreaterThan(distance(item.from, center));
    }
  });

  it('shows one line before there is a CG', () => {
    const one = { cg: null, ellipse: null, lines: answer.lines.slice(0, 1), hubs: answer.hubs ?? [] };
    const kinds = overlayItems(one, project).map(({ kind }) => kind);
    expect(kinds).toContain('chain');
    expect(kinds).not.toContain('cg');
  });

  it('keeps labels inside the picture', () => {
    const frame = { x: 0, y: 0, width: 470, height: 330 };
    for (const item of overlayItems(answer, project, frame)) {
      if (item.kind !== 'label') continue;
      const half = textWidth(item.text) / 2;
      const middle =
        item.anchor === 'middle' ? item.at.x : item.anchor === 'start' ? item.at.x + half : item.at.x - half;
      expect(middle - half).toBeGreaterThanOrEqual(0);
      expect(middle + half).toBeLessThanOrEqual(470);
    }
  });
});

describe('detail circle', () => {
  it('magnifies as much as the ellipse allows', () => {
    expect(detailFactor(millimeters(3.6), 1.1, 72)).toBe(10);
    expect(detailFactor(millimeters(400), 1.1, 72)).toBe(1);
  });

  it('shows each line with a band of its true half width', () => {
    const { lines, bands } = detailShapes({
      center: { x: 100, y: 100 },
      radius: 70,
      letter: 'X',
      scale: 1,
      factor: 8,
      at: sidePlace(148, 94),
      lines: [{ through: sidePlace(148, 94), angle: degrees(0), halfBand: millimeters(2) }],
    });
    expect(lines.map(([a]) => a.y)).toEqual([100]);
    expect(bands.map(([a]) => a.y).sort((a, b) => a - b)).toEqual([84, 116]);
  });
});

describe('ruler and bars', () => {
  it('reads back the value it puts its flag at', () => {
    const layout = { width: 372, min: 36, max: 164 };
    fc.assert(
      fc.property(fc.double({ min: 36, max: 164, noNaN: true }), (value) => {
        expect(rulerValue(layout, rulerX(layout, value))).toBeCloseTo(value, 8);
      }),
    );
  });

  it('steps by 1, 2 or 5 times a power of ten', () => {
    expect([0.3, 1, 1.4, 3, 7, 20, 45].map(roundStep)).toEqual([0.5, 1, 2, 5, 10, 20, 50]);
  });

  it('takes the longest round bar that fits', () => {
    expect([60, 120, 250, 700].map((room) => Math.round(lengthIn(scaleBarLength(1.2, room), 'mm')))).toEqual([
      50, 100, 200, 500,
    ]);
  });

  it('shares out bars by the largest, and none where nothing counts', () => {
    expect(barShares([2, 1, -0.5])).toEqual([1, 0.5, 0.25]);
    expect(barShares([0, 0])).toEqual([0, 0]);
    expect(barShares([NaN, 2])).toEqual([0, 1]);
  });
});
