import { Ajv } from 'ajv';
import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import * as prettier from 'prettier';
import { describe, expect, test } from 'vitest';
import {
  emptyAxleLift,
  emptyAxleScales,
  emptyBalanceOnEdge,
  emptyBodyMark,
  emptyChange,
  emptyHangLine,
  emptyHook,
  emptyPart,
  emptyPicture,
  emptySheet,
  emptyState,
  emptyTiltBoard,
  emptyTotalMass,
  emptyWheelScales,
} from '../../src/sheet/empty';
import { LARGEST_FILE_BYTES, sheetFromText, sheetToText, textOfFile } from '../../src/sheet/file';
import { benchFileJsonSchema } from '../../src/sheet/jsonSchema';
import type { BenchSheet } from '../../src/sheet/schema';

const SCHEMA_FILE = fileURLToPath(new URL('../../assets/bench-sheet.schema.json', import.meta.url));

/** Eight bytes that no text encoding leaves alone. */
const PIXELS = Uint8Array.from([0, 255, 128, 10, 13, 0, 200, 1]);

function fullSheet(): BenchSheet {
  const sheet = emptySheet('Full');
  const [state] = sheet.states;
  if (!state) throw new Error('an empty sheet has a state');
  const hook = { ...emptyHook(), id: 'roof' };
  state.hooks.push(hook);
  state.parts.push(emptyPart());
  state.bodyMarks.push(emptyBodyMark('A'));
  state.readings.push(
    emptyTotalMass(),
    emptyAxleScales(),
    emptyWheelScales(),
    emptyAxleLift(),
    { ...emptyHangLine(), hook: 'roof' },
    emptyTiltBoard(),
    emptyBalanceOnEdge(),
  );
  state.changes.push(emptyChange());
  state.pictures.push({
    ...emptyPicture('hanging', 4000, 3000),
    id: 'hang-1',
    hook: 'roof',
    marks: [
      { role: 'mark A', x: 1.5, y: 2.25, plusMinus: '', counted: true, source: 'hand' },
      { role: 'hook roof', x: 10, y: 20, plusMinus: '3', counted: false, source: 'hand' },
    ],
  });
  sheet.states.push({ ...emptyState('Second'), date: '2026-03-14' });
  sheet.guesses['3/B'] = { text: '82', unit: 'mm' };
  sheet.read.push('3/A');
  return sheet;
}

const PICTURES = new Map([['hang-1', new Blob([PIXELS], { type: 'image/jpeg' })]]);

describe('a file', () => {
  test('brings back the sheet and its pictures, byte for byte', async () => {
    const sheet = fullSheet();
    const read = sheetFromText(await sheetToText(sheet, PICTURES));
    if (!read.ok) throw new Error(read.message);
    expect(read.value.sheet).toEqual(sheet);
    const picture = read.value.pictures.get('hang-1');
    expect(picture?.type).toBe('image/jpeg');
    expect(new Uint8Array((await picture?.arrayBuffer()) ?? new ArrayBuffer(0))).toEqual(PIXELS);
  });

  test('carries a large picture', async () => {
    const bytes = Uint8Array.from({ length: 1_000_003 }, (_value, index) => index % 251);
    const pictures = new Map([['hang-1', new Blob([bytes], { type: 'image/png' })]]);
    const read = sheetFromText(await sheetToText(fullSheet(), pictures));
    const picture = read.ok ? read.value.pictures.get('hang-1') : undefined;
    expect(
      Buffer.compare(Buffer.from((await picture?.arrayBuffer()) ?? new ArrayBuffer(0)), Buffer.from(bytes)),
    ).toBe(0);
  });

  test('may begin with a byte order mark, as some editors write it', async () => {
    expect(sheetFromText(`\uFEFF${await sheetToText(fullSheet(), PICTURES)}`).ok).toBe(true);
  });

  test('may leave pictures out', async () => {
    const { pictureFiles: _left, ...rest } = JSON.parse(await sheetToText(fullSheet(), PICTURES));
    const read = sheetFromText(JSON.stringify(rest));
    expect(read.ok && read.value.pictures.size).toBe(0);
  });
});

describe('a bad file says what is wrong', () => {
  const CHOOSE = 'Choose a .json file that this workbook exported.';
  test.each([
    ['empty', '', `File: needs a bench sheet; it is empty. ${CHOOSE}`],
    ['blank', ' \n', `File: needs a bench sheet; it is empty. ${CHOOSE}`],
    ['other JSON', '[1, 2]', `File: needs a bench sheet; this is other JSON. ${CHOOSE}`],
    [
      'JSON of something else',
      '{"format": "song"}',
      'Bench sheet: needs format “plumb-low-bench-sheet”; this is something else. Choose a file that this workbook exported.',
    ],
  ])('%s', (_name, text, message) => {
    expect(sheetFromText(text)).toMatchObject({ ok: false, message });
  });

  test('cut short', async () => {
    const text = await sheetToText(fullSheet(), PICTURES);
    const read = sheetFromText(text.slice(0, text.length / 2));
    expect(read).toMatchObject({ ok: false, reason: 'not-json' });
    expect(read.ok ? '' : read.message).toMatch(
      /^File: needs complete JSON; .* It may be cut short: export it again\.$/,
    );
  });

  test('a picture that is none', async () => {
    const text = (await sheetToText(fullSheet(), PICTURES)).replace('data:image/jpeg', 'data:text/html');
    expect(sheetFromText(text)).toMatchObject({
      reason: 'invalid',
      message: expect.stringMatching(
        /^Picture files, hang-1: needs a JPEG, PNG or WebP picture as a base64 data URL; got “data:text\/html;base64,.*…”\. Look at pictureFiles\["hang-1"\] in the file\.$/,
      ),
    });
  });

  test('a file that is a picture, empty, or huge', async () => {
    expect(await textOfFile(new Blob([PIXELS]))).toMatchObject({ reason: 'not-text' });
    expect(await textOfFile(new Blob([Uint8Array.from([0xff, 0xd8, 0xff, 0xe1])]))).toMatchObject({
      reason: 'not-text',
    });
    expect(await textOfFile(new Blob([]))).toMatchObject({ reason: 'empty' });
    const huge = new Blob(['x']);
    Object.defineProperty(huge, 'size', { value: LARGEST_FILE_BYTES + 1 });
    expect(await textOfFile(huge)).toMatchObject({ reason: 'too-big' });
    expect(await textOfFile(new Blob(['{}']))).toEqual({ ok: true, value: '{}' });
  });
});

describe('assets/bench-sheet.schema.json', () => {
  test('is what the schema says (UPDATE=1 writes it anew)', async () => {
    const text = await prettier.format(JSON.stringify(benchFileJsonSchema()), {
      ...(await prettier.resolveConfig(SCHEMA_FILE)),
      parser: 'json',
    });
    if (process.env['UPDATE'] === '1') await writeFile(SCHEMA_FILE, text);
    expect(await readFile(SCHEMA_FILE, 'utf8')).toBe(text);
  });

  test('accepts what is exported and refuses what is not, by an independent validator', async () => {
    const validate = new Ajv({ strict: false }).compile(JSON.parse(await readFile(SCHEMA_FILE, 'utf8')));
    const file = JSON.parse(await sheetToText(fullSheet(), PICTURES));
    validate(file);
    expect(validate.errors).toBeNull();
    for (const spoil of [
      (copy: typeof file) => (copy.states[0].dimensions.wheelbase.unit = 'ft'),
      (copy: typeof file) => (copy.states[0].pictures[0].marks[0].role = 'mark Z'),
      (copy: typeof file) => (copy.states = []),
      (copy: typeof file) => (copy.extra = 1),
      (copy: typeof file) => delete copy.states[0].hubDepth,
      (copy: typeof file) => (copy.states[0].readings[3].raised = 'left axle'),
      (copy: typeof file) => delete copy.states[0].instruments.levelZero,
      (copy: typeof file) => (copy.states[0].changes[0].kind = 'painted'),
      (copy: typeof file) => (copy.pictureFiles['hang-1'] = 'data:text/html;base64,AA=='),
    ]) {
      const copy = structuredClone(file);
      spoil(copy);
      expect(validate(copy), spoil.toString()).toBe(false);
    }
  });
});
