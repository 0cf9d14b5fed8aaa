import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, test } from 'vitest';

/** `hawse pair` as it is typed, beside a server that answers so. */
async function pair(status: number, answer: unknown, ...args: string[]) {
  const asked: string[] = [];
  const server = createServer(async (request, response) => {
    let body = '';
    for await (const part of request) body += part;
    asked.push(`${request.method} ${request.url} ${body}`);
    response.writeHead(status).end(JSON.stringify(answer));
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  const child = spawn(process.execPath, ['dist/server/cli.js', 'pair', '--port', String(port), ...args]);
  let printed = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (part) => {
      printed += part;
    });
  const [code] = (await once(child, 'close')) as [number];
  server.close();
  return { code, printed, asked };
}

test('hawse pair shows the code of the hawse that runs here', async () => {
  const address = 'http://192.0.2.5:8274/phones#ABCD-EFGH';
  const opened = { code: 'ABCD-EFGH', role: 'acknowledge', seconds: 600, addresses: [address] };
  const { code, printed, asked } = await pair(200, opened, '--role', 'acknowledge');
  expect([code, asked]).toEqual([0, ['POST /api/v1/pairing {"role":"acknowledge"}']]);
  expect(printed).toContain('code ABCD-EFGH');
  expect(printed).toContain(address);
});

test('what is refused, wrong or not there is told in one line', async () => {
  const problem = {
    type: 'urn:hawse:problem:key-needed',
    title: 'A key is needed',
    status: 401,
    detail: 'May look.',
  };
  expect(await pair(401, problem)).toMatchObject({ code: 1, printed: 'hawse: May look.\n' });
  expect(await pair(200, {}, '--role', 'admin')).toMatchObject({ code: 2, asked: [] });
  expect(await pair(200, 'no hawse')).toMatchObject({ code: 1, printed: 'hawse: the answer was 200\n' });
});
