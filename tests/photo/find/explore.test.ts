import { test } from 'vitest';
import { findString } from '../../../src/photo/find/findString';
import { stringCrop } from './stringCrop';
test('explore', () => {
  const N = Number(process.env['N'] ?? 50);
  const from = Number(process.env['FROM'] ?? 1);
  let sum = 0,
    n = 0,
    decoy = 0,
    big = 0;
  let sumc = 0,
    z2 = 0,
    zc2 = 0;
  const reasons = new Map<string, number>();
  let time = 0;
  const bad: string[] = [];
  for (let i = from; i < from + N; i++) {
    const crop = stringCrop(i, { lean: i % 2 ? Math.PI / 6 : Math.PI, decoys: 0.7 }, 900000);
    const t = performance.now();
    const found = findString(crop.picture, crop.upper, crop.lower);
    time += performance.now() - t;
    const info = `${i} ${crop.decoy} L${crop.length.toFixed(0)} w${crop.width.toFixed(1)} c${crop.contrast.toFixed(0)} bow${crop.bow.toFixed(2)}`;
    if (!found.ok) {
      const k = found.reason + ' / ' + crop.decoy;
      reasons.set(k, (reasons.get(k) ?? 0) + 1);
      if (process.env['V'])
        console.warn(
          info,
          found.reason,
          'marks',
          crop.offCurve(crop.upper).toFixed(1),
          crop.offCurve(crop.lower).toFixed(1),
          'decoy',
          crop.offDecoy(crop.upper).toFixed(1),
          crop.offDecoy(crop.lower).toFixed(1),
        );
      continue;
    }
    const f = found.value;
    const errs = [crop.offLine(f.upper), crop.offLine(f.lower)];
    const errc = [crop.offCurve(f.onString.upper), crop.offCurve(f.onString.lower)];
    if (Math.max(crop.offDecoy(f.upper), crop.offDecoy(f.lower)) < 2) decoy++;
    n += 2;
    sum += errs[0]! ** 2 + errs[1]! ** 2;
    sumc += errc[0]! ** 2 + errc[1]! ** 2;
    z2 += (errs[0]! / f.u[0]) ** 2 + (errs[1]! / f.u[1]) ** 2;
    zc2 += (errc[0]! / f.onString.u[0]) ** 2 + (errc[1]! / f.onString.u[1]) ** 2;
    if (Math.max(...errs.map(Math.abs)) > 0.3) {
      big++;
      bad.push(
        `${info} err ${errs.map((e) => e.toFixed(2))} u ${f.u.map((e) => e.toFixed(3))} w ${f.width} c ${f.contrast.toFixed(0)}`,
      );
    }
  }
  console.warn(bad.slice(0, 20).join('\n'));
  console.warn(
    `found ${n / 2}/${N} rms ${Math.sqrt(sum / n).toFixed(4)} curve ${Math.sqrt(sumc / n).toFixed(4)} z ${Math.sqrt(z2 / n).toFixed(2)} zc ${Math.sqrt(zc2 / n).toFixed(2)} decoy ${decoy} >0.3: ${big} ms ${(time / N).toFixed(1)}`,
    [...reasons],
  );
}, 900000);
