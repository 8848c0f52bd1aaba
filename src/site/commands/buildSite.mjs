import { join } from 'node:path';
import { brokenLinks } from './checkDist.mjs';
import { dist, root } from './project.mjs';

/** A chapter or its links are wrong: the message alone says all, a stack would not help. */
export class BuildProblem extends Error {}

/**
 * Builds the notebook and checks every link in it.
 * @param {{ draft?: boolean, folder?: string }} options draft: warn of what is missing instead of failing; folder:
 *   where to build, emptied first
 * @returns {Promise<string>} the folder
 */
export async function buildSite({ draft = false, folder = dist } = {}) {
  // As it ships, whatever the caller runs under: a test run says "test", and packages then bring their other form.
  const before = process.env['NODE_ENV'];
  process.env['NODE_ENV'] = 'production';
  if (draft) process.env['PLUMB_DRAFT'] = '1';
  try {
    const { build } = await import('vite');
    await build({
      root,
      configFile: join(root, 'vite.config.ts'),
      logLevel: 'warn',
      build: { outDir: folder, emptyOutDir: true },
    });
  } catch (error) {
    if (error instanceof Error && /ChapterError/.test(String(error)))
      throw new BuildProblem(chapterMessage(error));
    throw error;
  } finally {
    if (before === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = before;
  }
  const broken = brokenLinks(folder);
  if (broken.length > 0 && !draft)
    throw new BuildProblem(`Broken links in ${folder}:\n  ${broken.join('\n  ')}`);
  return folder;
}

/** The bundler wraps a chapter's error; its own line is enough. */
function chapterMessage(error) {
  return /ChapterError: (.+)/.exec(error.message)?.[1] ?? error.message;
}
