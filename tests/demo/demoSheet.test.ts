import { readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { readGiven, remarkOn } from '../../src/sheet/given';
import { givensOf } from '../../src/sheet/givens';
import { brokenReferences } from '../../src/sheet/references';
import { BenchSheet } from '../../src/sheet/schema';
import { tolerance } from '../tolerances';
import { BRAMBLE } from './world/bramble';
import { demoSheet } from './world/demoSheet';
import { inventTruck } from './world/invent';
import { centerOfGravity, massOf } from './world/truck';

const folder = fileURLToPath(new URL('../../assets/demo/', import.meta.url));
const CAMERAS = 1;
if (process.env['UPDATE'] === '1')
  writeFileSync(`${folder}bramble.json`, `${JSON.stringify(demoSheet(BRAMBLE, CAMERAS), null, 2)}\n`);
const shipped: unknown = JSON.parse(readFileSync(`${folder}bramble.json`, 'utf8'));

/** Width and height from a JPEG's frame header (ITU-T T.81, B.2.2). */
const jpegSize = (bytes: Buffer): { width: number; height: number } => {
  for (let at = 2; at < bytes.length; at += 2 + bytes.readUInt16BE(at + 2)) {
    const marker = bytes.readUInt16BE(at);
    if (marker >= 0xffc0 && marker <= 0xffc2)
      return { height: bytes.readUInt16BE(at + 5), width: bytes.readUInt16BE(at + 7) };
  }
  throw new Error('No frame header.');
};

describe('the demo sheet', () => {
  const sheet = v.parse(BenchSheet, shipped);

  it('is a valid bench sheet whose references lead somewhere', () => {
    expect(brokenReferences(sheet)).toEqual([]);
    expect(sheet.demo).toBe(true);
  });

  it('is what the demo truck and its cameras give (UPDATE=1 writes it anew)', () => {
    expect(shipped).toEqual(JSON.parse(JSON.stringify(demoSheet(BRAMBLE, CAMERAS))));
  });

  it('is the same shape for any invented truck', () => {
    for (const number of [3, 12]) {
      const other = v.parse(BenchSheet, demoSheet(inventTruck(number), 5));
      expect(brokenReferences(other)).toEqual([]);
    }
  });

  it('has readings of every kind in its first state, all of whose numbers can be read', () => {
    const [first] = sheet.states;
    const kinds = new Set(first?.readings.map(({ kind }) => kind));
    expect([...kinds].toSorted()).toEqual([
      'axle lift',
      'axle scales',
      'balance on an edge',
      'hang line',
      'tilt board',
      'total mass',
      'wheel scales',
    ]);
    for (const state of sheet.states)
      for (const { given, field } of givensOf(state)) {
        if (given.text === '') continue;
        expect(readGiven(given, field), field.label).toMatchObject({ ok: true });
        expect(remarkOn(given, field)).toBeNull();
      }
  });

  it('ships a picture of the stated size for every picture of the sheet, 2.5 MB at most together', () => {
    const files = readdirSync(folder);
    const pictures = sheet.states.flatMap((state) => state.pictures);
    expect(files.toSorted()).toEqual(['bramble.json', ...pictures.map(({ id }) => `${id}.jpg`)].toSorted());
    for (const { id, width, height } of pictures)
      expect(jpegSize(readFileSync(`${folder}${id}.jpg`)), id).toEqual({ width, height });
    const bytes = files.reduce((sum, file) => sum + statSync(`${folder}${file}`).size, 0);
    expect(bytes).toBeLessThan(2.5e6);
  });

  it('has parts and scale readings that agree with the truck they were taken of', () => {
    const [state] = sheet.states;
    if (!state) throw new Error('No state.');
    const cg = centerOfGravity(BRAMBLE);
    const grams = state.parts.reduce((sum, part) => sum + Number(part.mass.text), 0);
    expect(grams / 1000).toBeCloseTo(massOf(BRAMBLE), 6);
    const height =
      state.parts.reduce((sum, part) => sum + Number(part.mass.text) * Number(part.height.text), 0) / grams;
    expect(height / 1000).toBeCloseTo(cg[2], 6);
    for (const reading of state.readings) {
      if (reading.kind === 'total mass')
        expect(Math.abs(Number(reading.load.text) - 1000 * massOf(BRAMBLE))).toBeLessThan(
          tolerance('demo: scale reading'),
        );
      if (reading.kind !== 'axle scales' && reading.kind !== 'wheel scales') continue;
      const front =
        reading.kind === 'axle scales' ? [reading.front] : [reading.frontLeft, reading.frontRight];
      const total = front.reduce((sum, { text }) => sum + Number(text), 0);
      expect(Math.abs(total - (1000 * massOf(BRAMBLE) * cg[0]) / BRAMBLE.wheelbase)).toBeLessThan(
        tolerance('demo: scale reading') * front.length,
      );
    }
  });
});
