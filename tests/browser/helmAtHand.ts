import { WebSocket } from 'ws';
import type { ServerMessage } from '../../shared/messages.ts';

/** A helm page without a screen: shows every signal at once, as the page does, and notes when. */
export interface HelmAtHand {
  /** Signals in the order in which they came, with the wall-clock time in ms. */
  readonly shown: { signal: string; atMs: number }[];
  /** The link is cut: nothing more is heard or said. */
  cut(): void;
  again(): Promise<void>;
  close(): void;
}

export async function helmAtHand(url: string, name: string): Promise<HelmAtHand> {
  const shown: HelmAtHand['shown'] = [];
  let socket = await connect();

  async function connect(): Promise<WebSocket> {
    const made = new WebSocket(
      `${url.replace('http', 'ws')}/live?page=weigh&name=${encodeURIComponent(name)}`,
    );
    made.on('message', (data) => {
      const message: ServerMessage = JSON.parse(String(data));
      if (message.type === 'pulse')
        made.send(JSON.stringify({ type: 'pulse', visible: true, sound: true, name }));
      if (message.type !== 'event' || message.event.event !== 'signal') return;
      shown.push({ signal: message.event.signal, atMs: Date.now() });
      made.send(JSON.stringify({ type: 'shown', signal: message.event.number }));
    });
    await new Promise<void>((resolve, reject) => {
      made.once('open', () => resolve());
      made.once('error', reject);
    });
    made.send(JSON.stringify({ type: 'pulse', visible: true, sound: true, name }));
    return made;
  }

  return {
    shown,
    cut: () => socket.terminate(),
    async again() {
      socket = await connect();
    },
    close: () => socket.close(),
  };
}
