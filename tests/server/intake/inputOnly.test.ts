import { createSocket } from 'node:dgram';
import { once } from 'node:events';
import { type AddressInfo, createServer, type Socket } from 'node:net';
import { expect, test } from 'vitest';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { startIntakes } from '../../../server/intake/manage.ts';
import { createEngine, step } from '../../../shared/engine.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';

const ORDERS = ['IIACK,245', 'IIACN,120000.00,XYZ,3001,1,A,C', 'IIACN,120000.00,,3001,,S,C'].map(
  withChecksum,
);

test('instrument ports are for listening: not a byte goes out, whatever comes in', async () => {
  let sent = 0;
  let told: Socket | undefined;
  const gateway = createServer((socket) => {
    told = socket;
    socket.on('data', (data) => {
      sent += data.length;
    });
    socket.on('error', () => {});
    socket.write(`${ORDERS.join('\r\n')}\r\n${withChecksum('GPHDT,1.0,T')}\r\n`);
  });
  gateway.listen(0, '127.0.0.1');
  await once(gateway, 'listening');
  const free = createSocket('udp4').bind(0, '127.0.0.1');
  await once(free, 'listening');
  const udp = free.address().port;
  await new Promise<void>((resolve) => free.close(() => resolve()));

  const lines: string[] = [];
  const intakes = startIntakes(
    [
      { id: 'tcp1', tcp: `127.0.0.1:${(gateway.address() as AddressInfo).port}` },
      { id: 'udp1', udp, host: '127.0.0.1' },
    ],
    { line: (_id, text) => lines.push(text), link: () => {} },
  );
  const sender = createSocket('udp4').bind(0, '127.0.0.1');
  sender.on('message', (data) => {
    sent += data.length;
  });
  while (lines.length < 8) {
    sender.send(`${ORDERS.join('\r\n')}\r\n${withChecksum('GPHDT,2.0,T')}\r\n`, udp, '127.0.0.1');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  for (const intake of intakes) await intake.stop();
  if (told && !told.destroyed) await once(told, 'close');
  sender.close();
  gateway.close();
  expect(lines).toEqual(expect.arrayContaining(ORDERS));
  expect(sent).toBe(0);
});

test('orders of alert displays that come in on an instrument port end no alert', () => {
  let engine = createEngine(toSettings(commonBoat()));
  const at = 1_760_000_000;
  const fault = { kind: 'fault', alert: 'disk', raised: true, priority: 'alarm', text: 'full' } as const;
  engine = step(engine, { at, ...fault }).state;
  const events = ORDERS.flatMap((text, i) => {
    const done = step(engine, { kind: 'line', at: at + i, source: 'udp1', text });
    engine = done.state;
    return done.events.filter(({ event }) => event === 'alert');
  });
  expect(events).toEqual([]);
  engine = step(engine, { kind: 'tick', at: at + 5 }).state;
  expect(JSON.stringify(engine.alerts)).toContain('"active-unacknowledged"');
});
