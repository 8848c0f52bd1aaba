import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
};

/**
 * Serves a folder to this machine only. With a prefix ("/some/sub/folder/") nothing outside it is found.
 * Tries the ports from `port` upward until one is free; port 0 takes any.
 *
 * @param {{ folder: string, port?: number, prefix?: string }} options
 * @returns {Promise<{ address: string, close: () => Promise<void> }>} address ends in a slash
 */
export async function serve({ folder, port = 0, prefix = '/' }) {
  const server = createServer((request, response) => answer({ folder, prefix, request, response }));
  const taken = await listen(server, port);
  return {
    address: `http://localhost:${taken}${prefix}`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

function answer({ folder, prefix, request, response }) {
  const refuse = (status) => response.writeHead(status, { 'Content-Type': 'text/plain' }).end(String(status));
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
  const path = pathOf(request.url ?? '/');
  if (path === null) return refuse(400);
  if (!path.startsWith(prefix)) return refuse(404);
  const inside = normalize(path.slice(prefix.length)).replace(/^[/\\]+/, '');
  const file = join(folder, inside === '.' || path.endsWith('/') ? join(inside, 'index.html') : inside);
  if (file !== folder && !file.startsWith(folder + sep)) return refuse(404);
  const size = fileSize(file);
  if (size === null) return refuse(404);
  response.writeHead(200, {
    'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream',
    'Content-Length': size,
    'Cache-Control': 'no-cache',
    'X-Content-Type-Options': 'nosniff',
  });
  if (request.method === 'HEAD') return response.end();
  createReadStream(file)
    .on('error', () => response.destroy())
    .pipe(response);
}

function pathOf(url) {
  try {
    return decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return null;
  }
}

function fileSize(file) {
  try {
    const found = statSync(file);
    return found.isFile() ? found.size : null;
  } catch {
    return null;
  }
}

async function listen(server, port) {
  for (let candidate = port; candidate < port + 20; candidate++) {
    try {
      await new Promise((resolve, reject) => {
        server.once('error', reject);
        server.listen(candidate, 'localhost', () => {
          server.off('error', reject);
          resolve();
        });
      });
      return server.address().port;
    } catch (error) {
      if (error.code !== 'EADDRINUSE' || port === 0) throw error;
    }
  }
  throw new Error(
    `Port: ${port} to ${port + 19} are all taken. Give another one, "npm start -- --port 9000".`,
  );
}
