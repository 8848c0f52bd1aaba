// @vitest-environment happy-dom
import { describe, expect, it } from 'vitest';
import { centerOfGravitySign, formerCenterOfGravity, hatchedBar } from '../../src/figures';
import { html } from 'lit';
import { everyFigure, numberOf, rendered, tilted } from './scenes';
import { tolerance } from '../tolerances';

const WIDTHS = [320, 480, 860];

describe.each(WIDTHS)('every figure, %i px wide', (width) => {
  it.each(everyFigure(width))('$name keeps the pages’ rules', ({ template }) => {
    const box = rendered(template);
    const markup = box.innerHTML;
    expect(box.querySelector('svg')).not.toBeNull();
    // Security policy: no style, no script.
    expect(markup).not.toMatch(/\sstyle=|<style|<script/);
    // No id and no reference to one, so that two figures on a page cannot collide: hatching is lines, not a pattern.
    expect(markup).not.toMatch(/\sid=|url\(#|href=/);
    expect(markup).not.toMatch(/NaN|Infinity|undefined|null|\[object/);
    // Colors come from the page's style sheet.
    expect(markup).not.toMatch(/ (fill|stroke)="(?!none)/);
  });
});

describe('sign of the center of gravity', () => {
  it('stands once in each figure that shows the CG, and in a detail once more', () => {
    const counts = Object.fromEntries(
      everyFigure(480).map(({ name, template }) => [
        name,
        rendered(template).querySelectorAll('.cg-quarters').length,
      ]),
    );
    expect(counts).toEqual({
      'resultant scene': 2,
      'tip lines': 1,
      'polar limit': 0,
      'tilted, right': 1,
      'tilted, descent': 1,
      'tilted, left': 1,
      'tilted, climb': 1,
      'three views': 1,
      object: 1,
      'object, on its axis': 1,
      'object, right of its axis and behind it': 1,
      overlay: 1,
      ruler: 0,
      agreement: 0,
      'seen or not': 0,
      bar: 0,
      'scale bar': 0,
      angle: 0,
    });
  });

  it('fills the quarters upper right and lower left', () => {
    const box = rendered(html`<svg>${centerOfGravitySign({ x: 50, y: 60 }, 10)}</svg>`);
    expect(box.querySelector('.cg-quarters')?.getAttribute('d')).toBe(
      'M50 60V50A10 10 0 0 1 60 60ZM50 60V70A10 10 0 0 1 40 60Z',
    );
  });

  it('is not shared by the former place, an open ring', () => {
    const box = rendered(html`<svg>${formerCenterOfGravity({ x: 5, y: 6 })}</svg>`);
    expect(box.querySelectorAll('circle').length).toBe(1);
    expect(box.querySelectorAll('.cg-quarters, .cg-ring').length).toBe(0);
  });
});

describe('truck at its limit', () => {
  it.each(tilted(480))('$way: the CG stands plumb above the tip line', ({ template }) => {
    const box = rendered(template);
    const sign = box.querySelector('.cg-ring');
    const pivot = box.querySelector('.pivot');
    expect(Math.abs(numberOf(sign, 'cx') - numberOf(pivot, 'cx'))).toBeLessThan(
      tolerance('figures: page coordinate'),
    );
    expect(numberOf(sign, 'cy')).toBeLessThan(numberOf(pivot, 'cy'));
  });

  it.each(tilted(320))('$way: nothing but a plumb line’s end leaves a phone’s figure', ({ template }) => {
    const svg = rendered(template).querySelector('svg');
    const [, , width = 0] = (svg?.getAttribute('viewBox') ?? '').split(' ').map(Number);
    for (const text of svg?.querySelectorAll('text') ?? []) {
      const x = numberOf(text, 'x');
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(width);
    }
  });
});

describe('hatched bar', () => {
  it('is left out where there is nothing to show', () => {
    for (const width of [0, -3, NaN]) {
      expect(rendered(html`<svg>${hatchedBar(0, 0, width, 10)}</svg>`).querySelector('path')).toBeNull();
    }
  });
});
