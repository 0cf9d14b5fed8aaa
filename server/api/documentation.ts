import swagger from '@fastify/swagger';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import { problem } from '../../shared/messages.ts';
import { COOKIE } from './access.ts';
import type { App } from './app.ts';

/** To be registered before the routes that it describes. */
export async function describeApi(app: App, version: string): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'hawse',
        version,
        description:
          'SI units, degrees true, UNIX seconds; what is not known is left out. Frames of the live socket ' +
          '(GET /live?since=SEQ&page=PAGE&name=NAME, upgraded to WebSocket) are the schemas ServerMessage and PageMessage.',
      },
      components: {
        securitySchemes: {
          cookie: { type: 'apiKey', in: 'cookie', name: COOKIE },
          bearer: { type: 'http', scheme: 'bearer' },
        },
      },
    },
    transform: jsonSchemaTransform,
    // Without this the $ref of named schemas point nowhere.
    transformObject: jsonSchemaTransformObject,
  });
}

/** Documented answers of a call: this when done, problem details otherwise. */
export const answers = <S extends z.ZodType>(done: S) => ({ 200: done, ...PROBLEM_ANSWERS });

const described = {
  description: 'RFC 9457 problem details',
  content: { 'application/problem+json': { schema: problem } },
};
export const PROBLEM_ANSWERS = { '4xx': described, '5xx': described };

/** Calls that change something: from this computer, or with a key whose role suffices. */
export const COMMAND_SECURITY = [{ cookie: [] }, { bearer: [] }];
