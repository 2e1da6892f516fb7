/** What the ledger asks of the world. Everything is passed in, so that tests own the clock and the network. */

export interface Clock {
  /** Milliseconds since 1970, by this phone. */
  now(): number;
  /** Minutes east of Greenwich at that moment, by this phone. */
  offset_minutes(at: number): number;
}

export interface Random {
  bytes(count: number): Uint8Array;
  /** At least 0, less than 1. */
  share(): number;
}

export interface Request {
  readonly method: 'GET' | 'POST' | 'PUT' | 'HEAD';
  readonly path: string;
  readonly body?: string | ArrayBuffer;
  readonly content_type?: string;
}

/** What came back, whoever sent it. */
export interface Reply {
  readonly status: number;
  readonly content_type: string;
  readonly retry_after?: string;
  readonly text: string;
  readonly bytes?: ArrayBuffer;
}

export interface Transport {
  /** undefined: no answer (no network, timed out, cut off). Never throws. */
  send(request: Request, signal?: AbortSignal): Promise<Reply | undefined>;
}

export interface Locks {
  /** Run the work alone in this household's store, or answer `busy` at once. `steal` takes the lock from whoever holds it. */
  alone<T>(name: string, steal: boolean, work: (signal: AbortSignal) => Promise<T>): Promise<T | 'busy'>;
}

/** Other windows of the same household. */
export interface Channel<T> {
  post(message: T): void;
  listen(heard: (message: T) => void): void;
  close(): void;
}

export interface Timers {
  /** Returns what takes it back. */
  after(ms: number, act: () => void): () => void;
  /** Milliseconds since some moment; goes on evenly, whatever is done to the phone's clock. */
  elapsed(): number;
}
