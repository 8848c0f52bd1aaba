import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve, type Served } from '../../src/site/commands/serve.mjs';

let outer = '';
let served: Served;

beforeAll(async () => {
  outer = mkdtempSync(join(tmpdir(), 'plumb-serve-'));
  mkdirSync(join(outer, 'site/parts'), { recursive: true });
  writeFileSync(join(outer, 'site/index.html'), '<p>home</p>');
  writeFileSync(join(outer, 'site/parts/a.js'), '1');
  writeFileSync(join(outer, 'secret.txt'), 'secret');
  served = await serve({ folder: join(outer, 'site'), prefix: '/some/sub/' });
});
afterAll(async () => {
  await served.close();
  rmSync(outer, { recursive: true, force: true });
});

/** Asks for a path as it stands; fetch() would tidy up "..". */
function ask(path: string): Promise<{ status: number | undefined; type: string | undefined; body: string }> {
  const { hostname, port } = new URL(served.address);
  return new Promise((resolve, reject) => {
    request({ hostname, port, path }, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (chunk: string) => (body += chunk));
      response.on('end', () =>
        resolve({ status: response.statusCode, type: response.headers['content-type'], body }),
      );
    })
      .on('error', reject)
      .end();
  });
}

describe('the server', () => {
  it('gives index.html for a folder and the right type for a script', async () => {
    expect(await ask('/some/sub/')).toEqual({
      status: 200,
      type: 'text/html; charset=utf-8',
      body: '<p>home</p>',
    });
    expect((await ask('/some/sub/parts/a.js?x=1')).type).toBe('text/javascript; charset=utf-8');
  });

  it.each([
    '/',
    '/some/sub/none.html',
    '/some/sub/parts',
    '/some/sub/../../secret.txt',
    '/some/sub/%2e%2e/secret.txt',
    '/some/sub/..%2fsecret.txt',
  ])('finds nothing at %s', async (path) => {
    expect((await ask(path)).status).toBe(404);
  });

  it('refuses a broken address', async () => {
    expect((await ask('/some/sub/%zz')).status).toBe(400);
  });

  it('takes the next port when one is taken', async () => {
    const blocker = createServer();
    await new Promise<void>((resolve) => blocker.listen(0, 'localhost', resolve));
    const address = blocker.address();
    const port = typeof address === 'object' && address ? address.port : 0;
    const other = await serve({ folder: join(outer, 'site'), port });
    expect(Number(new URL(other.address).port)).toBeGreaterThan(port);
    await other.close();
    await new Promise((resolve) => blocker.close(resolve));
  });
});
