import type { App } from './app.ts';

/** The page that leads a phone to the boat's https, and what it downloads there. Known to everybody, over plain http as well. */
export interface Trust {
  /** `host`: as the visitor wrote it, without port. */
  page(host: string): string;
  /** DER. */
  certificate(): Buffer;
  profile(): string;
}

export function addTrust(app: App, trust: Trust): void {
  const schema = { hide: true } as object;
  app.addHook('onRequest', async (request, reply) => {
    if (request.url.startsWith('/trust')) reply.header('cache-control', 'no-store');
  });
  app.get('/trust', { schema }, (request, reply) =>
    asItIs(reply.type('text/html; charset=utf-8'), trust.page(request.hostname)),
  );
  app.get('/trust/hawse.crt', { schema }, (_request, reply) =>
    reply
      .type('application/x-x509-ca-cert')
      .header('content-disposition', 'attachment; filename="hawse.crt"')
      .send(trust.certificate()),
  );
  app.get('/trust/hawse.mobileconfig', { schema }, (_request, reply) =>
    asItIs(reply.type('application/x-apple-aspen-config'), trust.profile()),
  );
}

/** Not as JSON, which is what every other answer is. */
const asItIs = <R extends { serializer(by: (payload: unknown) => string): { send(body: string): R } }>(
  reply: R,
  body: string,
): R => reply.serializer((payload: unknown) => String(payload)).send(body);
