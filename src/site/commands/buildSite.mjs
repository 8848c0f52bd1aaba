import { join } from 'node:path';
import { brokenLinks } from './checkDist.mjs';
import { dist, root } from './project.mjs';

/** A chapter or its links are wrong: the message alone says all, a stack would not help. */
export class BuildProblem extends Error {}

/**
 * Builds the notebook into dist/ and checks every link in it.
 * @param {{ draft?: boolean }} options draft: warn of what is missing instead of failing
 */
export async function buildSite({ draft = false } = {}) {
  if (draft) process.env['PLUMB_DRAFT'] = '1';
  const { build } = await import('vite');
  try {
    await build({ root, configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
  } catch (error) {
    if (error instanceof Error && /ChapterError/.test(String(error)))
      throw new BuildProblem(chapterMessage(error));
    throw error;
  }
  const broken = brokenLinks(dist);
  if (broken.length > 0 && !draft) throw new BuildProblem(`Broken links in dist/:\n  ${broken.join('\n  ')}`);
  return dist;
}

/** The bundler wraps a chapter's error; its own line is enough. */
function chapterMessage(error) {
  return /ChapterError: (.+)/.exec(error.message)?.[1] ?? error.message;
}
