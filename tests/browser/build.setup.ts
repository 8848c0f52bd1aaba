import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { buildSite } from '../../src/site/commands/buildSite.mjs';
import { cache, dist } from '../../src/site/commands/project.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** Folder of the built notebook under test. */
    siteFolder: string;
  }
}

/**
 * Builds the notebook once for a run of browser tests, into a folder of its own; the test command has just built dist/
 * and has that tested.
 */
export async function setup(project: TestProject): Promise<() => void> {
  if (process.env['PLUMB_BUILT'] === '1') {
    project.provide('siteFolder', dist);
    return () => {};
  }
  const folder = join(cache, `site-${process.pid}`);
  await buildSite({ folder, draft: process.env['PLUMB_DRAFT'] === '1' });
  project.provide('siteFolder', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
