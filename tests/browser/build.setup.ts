import { buildSite } from '../../src/site/commands/buildSite.mjs';

/** Builds the notebook once for a run of browser tests, unless the test command has just done so. */
export async function setup(): Promise<void> {
  if (process.env['PLUMB_BUILT'] !== '1') await buildSite({ draft: process.env['PLUMB_DRAFT'] === '1' });
}
