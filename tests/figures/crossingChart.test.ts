import { describe, expect, it } from 'vitest';
import { renderCrossingChart } from '../../src/figures/crossingChart';
import { degrees, millimeters } from '../../src/physics';

const chart = renderCrossingChart({
  curve: [10, 30, 60, 90].map((turn) => ({ crossing: degrees(turn), error: millimeters(90 / turn) })),
  notes: [
    { crossing: degrees(30), error: millimeters(3), text: '3.0 at 30°' },
    { crossing: degrees(90), error: millimeters(1), text: '1.0 at 90°' },
  ],
  xLabel: 'angle between the lines',
  yLabel: 'CG off by, mm',
  description: 'Falls from <9> at "10°" & on',
  top: millimeters(6),
});

describe('crossing chart', () => {
  it('keeps to the pages’ security policy', () => {
    expect(chart).not.toMatch(/<style|<script|\sstyle=|\sid=|http/);
  });

  it('is one image with a name; its drawings are hidden from assistive technology', () => {
    expect(chart).toMatch(
      /^<div class="chart" role="img" aria-label="Falls from &lt;9> at &quot;10°&quot; &amp; on">/,
    );
    expect(chart.match(/<svg /g)?.length).toBe(2);
    expect(chart.match(/<svg [^>]*aria-hidden="true"/g)?.length).toBe(2);
    expect(chart.match(/aria-label/g)?.length).toBe(1);
  });

  it('has a wide and a narrow drawing, sized by the page', () => {
    expect(chart).toContain('class="chart-wide"');
    expect(chart).toContain('class="chart-narrow"');
    expect(chart).not.toMatch(/<svg [^>]* (width|height)=/);
  });

  it('puts the named points on a true scale from zero', () => {
    // Wide: 40 to 556 px for 0 to 90°, 274 to 34 px for 0 to 6 mm.
    const wide = chart.slice(0, chart.indexOf('chart-narrow'));
    const places = [...wide.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"/g)].map((m) => [
      Number(m[1]),
      Number(m[2]),
    ]);
    expect(places).toEqual([
      [40 + 516 / 3, 154],
      [556, 234],
    ]);
    expect(wide).toContain('3.0 at 30°');
  });

  it('leaves out what lies above the scale and colors by the page’s tokens', () => {
    expect(chart).not.toMatch(/(fill|stroke)="#/);
    expect(chart).toContain('stroke="var(--ink)"');
  });
});
