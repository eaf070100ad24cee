// The engine, off the main thread.
//
// The page posts {module: WebAssembly.Module, lock} once. The worker holds the lock as long as it lives: so the page
// hears when it dies in silence, however busy it was. The Go program in it takes over this worker's onmessage, posts
// {ready: true}, and from then on answers {id, verb, args, bytes?} with {id, ok: true, json, bytes?} or {id, ok: false,
// error}. There is no way to stop a request from inside: the page ends the whole worker instead.

importScripts('wasm_exec.js');

// Resolves once this worker holds the lock, or where there is none to be had.
/** @param {string} name @returns {Promise<void>} */
function hold(name) {
  return new Promise((resolve) => {
    if (!name || !navigator.locks) return resolve();
    navigator.locks.request(name, () => {
      resolve();
      return new Promise(() => {}); // for ever
    });
  });
}

/** @param {MessageEvent<{module: WebAssembly.Module, lock: string}>} event */
self.onmessage = async ({data: {module, lock}}) => {
  try {
    await hold(lock);
    const go = new Go();
    const instance = await WebAssembly.instantiate(module, go.importObject);
    await go.run(instance);
    postMessage({gone: 'The engine stopped by itself. Try again.'});
  } catch (error) {
    postMessage({gone: `The engine did not start: ${error instanceof Error ? error.message : error}.`});
  }
};
