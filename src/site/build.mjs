// npm run build: the static notebook in dist/, checked for broken links. "-- --draft" warns of what is missing.
import { ensureInstalled } from './commands/install.mjs';
import { say, stop } from './commands/project.mjs';

ensureInstalled();
const { buildSite, BuildProblem } = await import('./commands/buildSite.mjs');
try {
  await buildSite({ draft: process.argv.includes('--draft') });
  say('Built into dist/. It works from any folder of any web server.');
} catch (error) {
  if (error instanceof BuildProblem) stop(error.message);
  throw error;
}
