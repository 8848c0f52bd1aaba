// npm start: installs what is missing, builds the notebook, serves it, prints the address.
import { ensureInstalled } from './commands/install.mjs';
import { say, stop } from './commands/project.mjs';

ensureInstalled();
const { buildSite, BuildProblem } = await import('./commands/buildSite.mjs');
const { serve } = await import('./commands/serve.mjs');

const asked = process.argv.indexOf('--port');
const port = asked > 0 ? Number(process.argv[asked + 1]) : Number(process.env['PORT'] || 4173);
if (!Number.isInteger(port) || port < 1 || port > 65_000)
  stop(
    `Port: needs a whole number from 1 to 65000; got “${process.argv[asked + 1] ?? process.env['PORT']}”. Try 4173.`,
  );

say('Building the notebook …');
try {
  const folder = await buildSite();
  const { address } = await serve({ folder, port });
  say(`\nPlumb Low is open at\n\n    ${address}\n\nEnd with Ctrl+C.`);
} catch (error) {
  if (error instanceof BuildProblem) stop(error.message);
  throw error;
}
