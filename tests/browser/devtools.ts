import { spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WebSocket } from 'ws';
import { chromium, flags } from './chromium.mjs';

/**
 * A browser driven by the raw DevTools protocol. The usual driver keeps every page visible and counts its own scripts as a
 * person's touch, and so hides just what a phone does at night: hiding, freezing, throttling, locking the sound.
 */
export interface Browser {
  open(url: string): Promise<Tab>;
  stop(): Promise<void>;
}

export interface Tab {
  /** Value of an expression in the page, without counting as a person's touch. */
  evaluate<T>(expression: string): Promise<T>;
  /** As a finger does it, in the middle of the element that the expression gives. */
  touch(element: string): Promise<void>;
  /** Brings the tab to the front, which hides the one that was there. */
  show(): Promise<void>;
  send(method: string, params?: object): Promise<Record<string, unknown>>;
}

/** A button by the beginning of what it says. */
export const button = (text: string): string =>
  `[...document.querySelectorAll('button')].find((b) => b.textContent.trim().startsWith(${JSON.stringify(text)}))`;

const START_LIMIT_MS = 120_000;
const CLEAR_TRIES = 100;

export async function startBrowser(...options: string[]): Promise<Browser> {
  const profile = mkdtempSync(join(tmpdir(), 'hawse-browser-'));
  const browser = spawn(
    chromium,
    [
      ...flags,
      '--headless=new',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      ...options,
      'about:blank',
    ],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const ended = new Promise<void>((resolve) => browser.once('exit', () => resolve()));
  const endpoint = await new Promise<string>((resolve, reject) => {
    let printed = '';
    const timer = setTimeout(() => reject(new Error(`no browser: ${printed}`)), START_LIMIT_MS);
    browser.stderr.on('data', (chunk) => {
      printed += chunk;
      const found = /ws:\/\/\S+/.exec(printed)?.[0];
      if (!found) return;
      clearTimeout(timer);
      resolve(found);
    });
  });
  const socket = new WebSocket(endpoint, { maxPayload: 64e6 });
  await new Promise((resolve) => socket.once('open', resolve));

  let lastId = 0;
  const waiting = new Map<
    number,
    { resolve(value: Record<string, unknown>): void; reject(error: Error): void }
  >();
  socket.on('message', (data) => {
    const { id, result, error } = JSON.parse(String(data));
    const asked = waiting.get(id);
    waiting.delete(id);
    if (error) asked?.reject(new Error(error.message));
    else asked?.resolve(result);
  });
  const send = (method: string, params: object = {}, sessionId?: string) =>
    new Promise<Record<string, unknown>>((resolve, reject) => {
      waiting.set(++lastId, { resolve, reject });
      socket.send(JSON.stringify({ id: lastId, method, params, ...(sessionId && { sessionId }) }));
    });

  async function open(url: string): Promise<Tab> {
    const { targetId } = await send('Target.createTarget', { url });
    const { sessionId } = await send('Target.attachToTarget', { targetId, flatten: true });
    const inTab = (method: string, params?: object) => send(method, params, sessionId as string);
    async function evaluate<T>(expression: string): Promise<T> {
      const told = await inTab('Runtime.evaluate', { expression, returnByValue: true, awaitPromise: true });
      const { result, exceptionDetails } = told as {
        result: { value: T };
        exceptionDetails?: { exception?: { description?: string } };
      };
      if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? expression);
      return result.value;
    }
    return {
      evaluate,
      send: inTab,
      async touch(element) {
        const [x, y] = await evaluate<[number, number]>(
          `(() => { const b = (${element}).getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`,
        );
        await inTab('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x, y }] });
        await inTab('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      },
      async show() {
        await send('Target.activateTarget', { targetId });
      },
    };
  }

  return {
    open,
    async stop() {
      socket.close();
      browser.kill('SIGTERM');
      await ended;
      await clearAway(profile);
    },
  };
}

/** The browser's helpers outlive it by moments and write into its folder until they notice. */
async function clearAway(folder: string): Promise<void> {
  for (let tries = 1; ; tries++) {
    try {
      return await rm(folder, { recursive: true, force: true });
    } catch (error) {
      if (tries === CLEAR_TRIES) throw error;
      await new Promise((resolve) => setTimeout(resolve, 300));
    }
  }
}
