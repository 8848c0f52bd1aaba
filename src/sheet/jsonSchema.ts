import { toJsonSchema, type JsonSchema } from '@valibot/to-json-schema';
import { BenchFile } from './fileFormat';
import { SHEET_VERSION } from './schema';

/**
 * The format of exported files as JSON Schema, for other programs. assets/bench-sheet.schema.json holds it; a test
 * keeps the two alike. Used by tests only: no page loads the converter.
 */
export function benchFileJsonSchema(): JsonSchema {
  return {
    // JSON has no infinite numbers, so "finite" need not be said there.
    ...toJsonSchema(BenchFile, { ignoreActions: ['finite'] }),
    title: 'Plumb Low bench sheet',
    description: [
      `Version ${SHEET_VERSION} of everything known of one truck, as its owner typed it.`,
      'Numbers are texts beside their unit; an empty text is not typed yet.',
      'Places: ahead of the rear axle, left of the center plane, above ground, truck at ride height.',
      'pictureFiles holds the pictures as data URLs by picture id.',
    ].join(' '),
  };
}
