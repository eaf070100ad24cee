// The engine's client: one worker for each lane of work, started when first needed, ended when what it does is worthless.
//
// A lane answers its requests in order. `ask(…, {instead: true})` makes every earlier request with the same verb worthless:
// one that waits is dropped, one that runs gets a short grace and is then ended with its worker. Whoever asked hears
// `Superseded` and need do nothing. `told` hears from the engine how far the work has come, from 0 to 1.

const GRACE = 150; // ms a worthless request may still take: less than a fresh worker costs

export class Superseded extends Error {}

// What a person stopped.
export class Stopped extends Error {}

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
  if (!response.ok) throw new Error(`The engine could not be fetched (${response.status}). Try again, or reload the page.`);
  if (response.headers.get('content-type')?.startsWith('application/wasm')) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}

export class Lane {
  #worker = null;
  #ready = null; // resolves to the worker, once its program can be asked
  #queue = [];
  #running = null;
  #serial = 0;
  #grace = 0;

  // Starts the worker ahead of the first request.
  warm() {
    this.#start().catch(() => {}); // the first request will say what is wrong
  }

  // Asks for a verb; resolves to {value (the JSON, parsed), json, bytes}, rejects with an Error whose message is a sentence.
  ask(verb, args, {bytes = null, instead = false, told = null} = {}) {
    if (instead) this.drop(verb);
    return new Promise((resolve, reject) => {
      this.#queue.push({id: ++this.#serial, verb, args, bytes, told, resolve, reject});
      this.#next();
    });
  }

  // Makes earlier requests with this verb worthless.
  drop(verb) {
    this.#queue = this.#queue.filter((request) => {
      if (request.verb !== verb) return true;
      request.reject(new Superseded());
      return false;
    });
    const running = this.#running;
    if (running?.verb !== verb || running.worthless) return;
    running.worthless = true;
    running.reject(new Superseded());
    if (running.sent) this.#grace = setTimeout(() => this.#end(), GRACE);
  }

  // Ends requests with this verb at once, because a person wants it; whoever asked hears `Stopped`.
  stop(verb) {
    this.#queue = this.#queue.filter((request) => {
      if (request.verb !== verb) return true;
      request.reject(new Stopped());
      return false;
    });
    const running = this.#running;
    if (running?.verb !== verb || running.worthless) return;
    running.worthless = true;
    running.reject(new Stopped());
    if (running.sent) this.#end();
  }

  async #start() {
    const code = await module();
    if (!this.#worker) this.#ready = this.#make(code);
    return this.#ready; // to the worker
  }

  #make(code) {
    const worker = this.#worker = new Worker('worker.js');
    worker.onerror = (event) => this.#hear(worker, {gone: `The engine stopped: ${event.message || 'its worker did not load'}.`});
    const ready = new Promise((resolve) => {
      worker.onmessage = ({data}) => (data.ready ? resolve(worker) : this.#hear(worker, data));
    });
    worker.postMessage({module: code});
    return ready;
  }

  async #next() {
    if (this.#running || !this.#queue.length) return;
    const request = this.#running = this.#queue.shift();
    try {
      const worker = await this.#start();
      if (this.#running !== request) return;
      if (request.worthless) return this.#finish(() => {}); // it became so while the worker started
      request.sent = true;
      const {id, verb, args, bytes} = request;
      worker.postMessage({id, verb, args, ...(bytes && {bytes})});
    } catch (error) {
      if (this.#running !== request) return;
      this.#finish(() => request.reject(error));
    }
  }

  #hear(worker, data) {
    if (worker !== this.#worker) return;
    const request = this.#running;
    if (data.gone) {
      this.#worker = null;
      worker.terminate();
      if (request) this.#finish(() => request.reject(new Error(data.gone)));
      return;
    }
    if (!request || request.id !== data.id) return;
    if (data.part !== undefined) {
      if (!request.worthless) request.told?.(data.part);
      return;
    }
    this.#finish(() => {
      if (!data.ok) return request.reject(new Error(data.error));
      try {
        request.resolve({value: data.json ? JSON.parse(data.json) : null, json: data.json, bytes: data.bytes});
      } catch {
        request.reject(new Error('The engine gave an answer that could not be read.'));
      }
    });
  }

  #finish(settle) {
    clearTimeout(this.#grace);
    this.#running = null;
    settle();
    this.#next();
  }

  #end() {
    this.#worker?.terminate();
    this.#worker = null;
    this.#running = null;
    this.#next();
  }
}
