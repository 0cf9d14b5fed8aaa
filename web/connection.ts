import { effect } from '@preact/signals';
import type { PageMessage, ServerMessage } from '../shared/messages.ts';
import {
  advance,
  anew,
  barred,
  bearer,
  doubtFigures,
  lastGap,
  link,
  QUIET_LIMIT_MS,
  role,
  take,
} from './live.ts';
import { condition } from './phone/health.ts';
import { phoneId } from './phone/identity.ts';
import { screenName } from './prefs.ts';
import { signalShown } from './reported.ts';

/** Keeps the socket to the boat: pulses both ways, notices silence, comes back by itself. Driven by the heartbeat alone. */

const PULSE_MS = 2000;
const CONNECT_LIMIT_MS = 5000;
const FIRST_RETRY_MS = 400;
const LONGEST_RETRY_MS = 5000;
/** Code of a socket that the boat closes since this screen may not look, or its key was taken away. */
const NOT_ALLOWED = 4003;

export interface Connection {
  tick(monotonicMs: number): void;
  /**
   * The page was asleep or has come back into view: what the socket says about itself is not to be believed. `fresh`: everything
   * anew, rather than what this page believes to have missed.
   */
  restart(fresh?: boolean): void;
  /** Another page is shown; the boat lists which. */
  showing(page: string): void;
}

export function createConnection(firstPage: string): Connection {
  let page = firstPage;
  let socket: WebSocket | undefined;
  let seq: number | undefined;
  let openedAt = 0;
  let pulsedAt = 0;
  let retryAt = 0;
  let retries = 0;
  let lastWord = performance.now();

  function connect(): void {
    drop();
    openedAt = performance.now();
    const query = new URLSearchParams({ page, name: screenName.peek() });
    if (seq !== undefined) query.set('since', String(seq));
    const scheme = location.protocol === 'https:' ? 'wss' : 'ws';
    const made = new WebSocket(`${scheme}://${location.host}/live?${query}`);
    made.onopen = () => {
      pulse(performance.now());
      // What was shown while the link was down is still awaited.
      const shown = signalShown.peek();
      if (shown !== undefined) send({ type: 'shown', signal: shown });
    };
    made.onmessage = (event: MessageEvent<string>) => {
      if (made === socket) hear(event.data);
    };
    made.onclose = ({ code }) => {
      if (made !== socket) return;
      if (code === NOT_ALLOWED) {
        // What this screen may do is told with the whole state, so that is asked for.
        seq = undefined;
        barred.value = true;
        role.value = 'look';
        bearer.value = undefined;
      }
      // A page that was opened while the daemon is down (out of the service worker's store) says so without waiting.
      if (link.peek().status === 'calling') link.value = { status: 'lost', since: Date.now() };
      retryLater();
    };
    socket = made;
  }

  function drop(): void {
    const old = socket;
    socket = undefined;
    old?.close();
  }

  function retryLater(): void {
    drop();
    const longest = Math.min(LONGEST_RETRY_MS, FIRST_RETRY_MS * 2 ** retries++);
    // Half of it by chance: the screens of a boat whose computer restarts should not all call in the same instant.
    retryAt = performance.now() + longest * (0.5 + Math.random() / 2);
  }

  function hear(text: string): void {
    let message: ServerMessage;
    try {
      message = JSON.parse(text);
    } catch {
      console.warn('the boat sent something that is not JSON', text.slice(0, 200));
      return;
    }
    lastWord = performance.now();
    retries = 0;
    if (link.peek().status !== 'open') backInTouch();
    if (!take(message, seq, lastWord)) {
      connect();
      return;
    }
    if (message.type === 'goodbye') retryLater();
    if (message.type !== 'pulse' && message.type !== 'refused') seq = message.seq;
  }

  function backInTouch(): void {
    const before = link.peek();
    if (before.status === 'lost' || before.status === 'stopped') {
      const gap = lastGap.peek();
      // What began with a sleep of this device is told as one, to its end.
      const isOne = gap !== undefined && gap.why !== 'no-word' && before.since <= gap.to + QUIET_LIMIT_MS;
      lastGap.value = isOne
        ? { ...gap, to: Date.now() }
        : { from: before.since, to: Date.now(), why: 'no-word' };
    }
    link.value = { status: 'open' };
  }

  function pulse(monotonicMs: number): void {
    pulsedAt = monotonicMs;
    send({
      type: 'pulse',
      ...condition.peek(),
      name: screenName.peek(),
      phone: phoneId,
      ...(seq !== undefined && { seq }),
    });
  }

  function send(message: PageMessage): void {
    if (socket?.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
  }

  effect(() => {
    if (anew.value === 0) return;
    seq = undefined;
    retries = 0;
    connect();
  });

  effect(() => {
    // A new name, and whatever changes about the alarm of this page, is told at once.
    screenName.value;
    condition.value;
    pulse(performance.now());
  });

  effect(() => {
    if (signalShown.value !== undefined) send({ type: 'shown', signal: signalShown.value });
  });

  return {
    tick(monotonicMs) {
      advance(monotonicMs);
      const quiet = monotonicMs - lastWord;
      const { status } = link.peek();
      if (quiet > QUIET_LIMIT_MS && (status === 'open' || status === 'calling')) {
        link.value = { status: 'lost', since: Date.now() - quiet };
      }
      if (!socket) {
        if (monotonicMs >= retryAt) connect();
        return;
      }
      const tooLong = socket.readyState === WebSocket.OPEN ? QUIET_LIMIT_MS : CONNECT_LIMIT_MS;
      if (monotonicMs - Math.max(openedAt, lastWord) > tooLong) retryLater();
      else if (monotonicMs - pulsedAt >= PULSE_MS) pulse(monotonicMs);
    },
    restart(fresh = false) {
      retries = 0;
      if (fresh) {
        seq = undefined;
        // It was this page that heard nothing; the boat gets her time to answer.
        lastWord = performance.now();
        doubtFigures();
      }
      connect();
    },
    showing(next) {
      if (next === page) return;
      page = next;
      connect();
    },
  };
}
