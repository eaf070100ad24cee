// The engine's client: one worker for each lane of work, started when first needed, ended when what it does is
// worthless.
//
// A lane answers its requests in order. `ask(…, {instead: true})` makes every earlier request with the same verb
// worthless: one that waits is dropped, one that runs gets a short grace and is then ended with its worker. Whoever
// asked hears `Superseded` and need do nothing. `progress` hears from the engine how far the work has come, from 0
// to 1.
//
// A worker that dies in silence is noticed by the lock that it held, at once and however busy it was; so is one that
// says nothing at all for very long. What it was at is then begun anew by another one, once.

const GRACE = 150; // ms a worthless request may still take: less than a fresh worker costs
const SILENCE = 300_000; // ms without a word, not even of how far it has come: no piece of work takes so long
const SETTING_UP = 60_000; // ms until a worker is ready

export class Superseded extends Error {}

// What a person stopped.
export class Stopped extends Error {}

let workers = 0; // made so far

/** @type {Promise<WebAssembly.Module> | null} */
let compiled = null;

// Compiles the engine once for all workers.
function module() {
  compiled ??= compile().catch((error) => {
    compiled = null; // try again at the next request
    throw error;
  });
  return compiled;
}

async function compile() {
  const response = await fetch('engine.wasm');
  if (!response.ok) {
    throw new Error(`The engine could not be fetched (${response.status}). Try again, or reload the page.`);
  }

  const streams = response.headers.get('content-type')?.startsWith('application/wasm');
  if (streams) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}

/** @typedef {(part: number) => void} Progress hears how far a piece of work has come, from 0 to 1 */

/**
 * A request on its way. What it resolves to follows from its verb (Verbs), and only `ask` knows that.
 * @typedef {object} Waiting
 * @property {number} id
 * @property {Verb} verb
 * @property {EngineRequest} args
 * @property {Uint8Array | null} bytes
 * @property {Progress | null} progress
 * @property {(message: WorkerMessage) => void} resolve
 * @property {(error: unknown) => void} reject
 * @property {boolean} [worthless]
 * @property {boolean} [sent]
 * @property {boolean} [again] it was begun anew already
 */

export class Lane {
  /** @type {Worker | null} */
  #worker = null;
  /** @type {Promise<Worker> | null} */
  #ready = null; // resolves to the worker, once its program can be asked
  /** @type {Waiting[]} */
  #queue = [];
  /** @type {Waiting | null} */
  #running = null;
  #serial = 0;
  #grace = 0;
  #silence = 0;

  // Starts the worker ahead of the first request.
  warm() {
    this.#start().catch(() => {}); // the first request will say what is wrong
  }

  /**
   * Asks for a verb; resolves to {value (the JSON, parsed), json, bytes}, rejects with an Error whose message is a
   * sentence.
   * @template {Verb} V
   * @param {V} verb
   * @param {Verbs[V]['args']} args
   * @param {{bytes?: Uint8Array | null, instead?: boolean, progress?: Progress | null}} [how]
   * @returns {Promise<Answer<V>>}
   */
  ask(verb, args, {bytes = null, instead = false, progress = null} = {}) {
    if (instead) this.drop(verb);
    return new Promise((settle, reject) => {
      /** @param {WorkerMessage} message */
      const resolve = ({json = '', bytes: file}) => {
        try {
          settle({value: JSON.parse(json), json, bytes: file ?? new Uint8Array()});
        } catch {
          reject(new Error('The engine gave an answer that could not be read.'));
        }
      };
      this.#queue.push({id: ++this.#serial, verb, args, bytes, progress, resolve, reject});
      this.#next();
    });
  }

  // Makes earlier requests with this verb worthless.
  /** @param {Verb} verb */
  drop(verb) {
    if (this.#refuse(verb, Superseded)) this.#grace = setTimeout(() => this.#end(), GRACE);
  }

  // Ends requests with this verb at once, because a person wants it; whoever asked hears `Stopped`.
  /** @param {Verb} verb */
  stop(verb) {
    if (this.#refuse(verb, Stopped)) this.#end();
  }

  // Rejects all requests with a verb; true when the worker is at one of them.
  /** @param {Verb} verb @param {typeof Superseded | typeof Stopped} Why */
  #refuse(verb, Why) {
    this.#queue = this.#queue.filter((request) => {
      if (request.verb !== verb) return true;
      request.reject(new Why());
      return false;
    });
    const running = this.#running;
    if (running?.verb !== verb || running.worthless) return false;
    running.worthless = true;
    running.reject(new Why());
    return Boolean(running.sent);
  }

  async #start() {
    const code = await module();
    if (!this.#worker || !this.#ready) this.#ready = this.#make(code);
    return this.#ready; // to the worker
  }

  /** @param {WebAssembly.Module} code */
  #make(code) {
    const worker = this.#worker = new Worker('worker.js');
    worker.onerror = ({message}) => {
      this.#hear(worker, {gone: `The engine stopped: ${message || 'its worker did not load'}.`});
    };
    const lock = `openwork:engine:${++workers}:${Math.random()}`;
    /** @type {Promise<Worker>} */
    const ready = new Promise((resolve) => {
      worker.onmessage = ({data}) => {
        if (!data.ready) return this.#hear(worker, data);
        clearTimeout(this.#silence);
        navigator.locks?.request(lock, () => this.#died(worker)); // is granted when the worker is no more
        resolve(worker);
      };
    });
    this.#listen(worker, SETTING_UP);
    worker.postMessage({module: code, lock});
    return ready;
  }

  // Waits for the next word of a worker.
  /** @param {Worker} worker @param {number} time ms */
  #listen(worker, time) {
    clearTimeout(this.#silence);
    this.#silence = setTimeout(() => this.#died(worker), time);
  }

  // A worker is gone without a word: what it was at is begun anew, but only once, since it may be what killed it.
  /** @param {Worker} worker */
  #died(worker) {
    if (worker !== this.#worker) return;
    const request = this.#running;
    clearTimeout(this.#silence);
    worker.terminate();
    this.#worker = this.#ready = null;
    if (!request) return; // the next request starts another one
    if (request.worthless) return this.#finish(() => {});
    if (request.again) {
      return this.#finish(() => request.reject(new Error('The engine stopped twice at this piece of work. '
        + 'Close other tabs to give it room, or make the draft smaller, and try again.')));
    }
    request.again = true;
    request.sent = false;
    this.#queue.unshift(request);
    this.#finish(() => {});
  }

  async #next() {
    if (this.#running) return;
    const request = this.#queue.shift() ?? null;
    this.#running = request;
    if (!request) return;
    try {
      const worker = await this.#start();
      if (this.#running !== request) return;
      if (request.worthless) return this.#finish(() => {}); // it became so while the worker started
      request.sent = true;
      this.#listen(worker, SILENCE);
      const {id, verb, args, bytes} = request;
      worker.postMessage({id, verb, args, ...(bytes && {bytes})});
    } catch (error) {
      if (this.#running !== request) return;
      this.#finish(() => request.reject(error));
    }
  }

  /** @param {Worker} worker @param {WorkerMessage} data */
  #hear(worker, data) {
    if (worker !== this.#worker) return;
    const request = this.#running;
    if (request) this.#listen(worker, SILENCE);
    if (data.gone) {
      clearTimeout(this.#silence);
      this.#worker = null;
      worker.terminate();
      if (request) this.#finish(() => request.reject(new Error(data.gone)));
      return;
    }
    if (!request || request.id !== data.id) return;
    if (data.part !== undefined) {
      if (!request.worthless) request.progress?.(data.part);
      return;
    }
    this.#finish(() => (data.ok ? request.resolve(data) : request.reject(new Error(data.error))));
  }

  /** @param {() => void} settle */
  #finish(settle) {
    clearTimeout(this.#grace);
    clearTimeout(this.#silence);
    this.#running = null;
    settle();
    this.#next();
  }

  #end() {
    clearTimeout(this.#silence);
    this.#worker?.terminate();
    this.#worker = null;
    this.#running = null;
    this.#next();
  }
}
