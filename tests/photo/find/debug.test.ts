import { test } from 'vitest';
import { markFrame, stripBetween } from '../../../src/photo/find/strip';
import { structuresIn } from '../../../src/photo/find/structures';
import { findString } from '../../../src/photo/find/findString';
import { stringCrop } from './stringCrop';
test('debug', () => {
  const out: string[] = [];
  for (const i of (process.env['IDS'] ?? '1').split(',').map(Number)) {
    const crop = stringCrop(i, { lean: i % 2 ? Math.PI / 6 : Math.PI, decoys: 0.7 });
    out.push(
      `#${i} ${crop.decoy} L${crop.length.toFixed(0)} w${crop.width.toFixed(1)} c${crop.contrast.toFixed(0)} bow${crop.bow.toFixed(2)} string at ${(-crop.offCurve(crop.upper)).toFixed(1)} ${(-crop.offCurve(crop.lower)).toFixed(1)}; decoy ${crop.offDecoy(crop.upper).toFixed(1)} ${crop.offDecoy(crop.lower).toFixed(1)}`,
    );
    const t0 = performance.now();
    const strip = stripBetween(crop.picture, markFrame(crop.upper, crop.lower));
    const t1 = performance.now();
    const { structures: ss, complete } = structuresIn(strip);
    const t2 = performance.now();
    const f = findString(crop.picture, crop.upper, crop.lower);
    const t3 = performance.now();
    for (const s of ss)
      out.push(
        `   ${s.table.shape.kind} w${s.table.shape.width} b${s.table.shape.blur} c${s.contrast.toFixed(1)} cov ${s.coverage.toFixed(2)} at ${(s.curve[0] - s.curve[1] + s.curve[2]).toFixed(2)} ${(s.curve[0] + s.curve[1] + s.curve[2]).toFixed(2)} bow ${(-s.curve[2]).toFixed(2)}`,
      );
    out.push(
      `   ${complete} ${f.ok ? 'found' : f.message} strip ${(t1 - t0).toFixed(1)} structures ${(t2 - t1).toFixed(1)} all ${(t3 - t2).toFixed(1)}`,
    );
  }
  console.warn(out.join('\n'));
});
