/** What carries sentences to the bus. */
export interface Carrier {
  readonly what: string;
  /** `ready`: it can send (again), and whoever listens there may have missed everything; `hear`: a line came back. */
  start(ready: () => void, hear: (line: string) => void): void;
  /** Resolves when they have left this computer; rejects with what is wrong, in words. */
  send(lines: readonly string[]): Promise<void>;
  stop(): Promise<void>;
}
