import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** Elements the frame itself uses, on every page. */
export const FRAME_ELEMENTS: readonly string[] = ['plumb-title-block'];

/** Where the module that defines a custom element stands: plumb-guess in src/calculators/guess/plumb-guess.ts. */
export function modulePath(tag: string): string {
  return `src/calculators/${tag.replace(/^plumb-/, '')}/${tag}.ts`;
}

/** Address of that module for a page's script, or undefined when there is none. */
export function elementModule(root: string, tag: string): string | undefined {
  const folder = modulePath(tag).replace(/[^/]+$/, '');
  const path = [modulePath(tag), `${folder}${tag.replace(/^plumb-/, '')}.ts`].find((candidate) =>
    existsSync(join(root, candidate)),
  );
  return path && `/${path}`;
}
