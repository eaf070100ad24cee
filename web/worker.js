// The engine, off the main thread.
//
// The page posts {module: WebAssembly.Module} once. The Go program in it takes over this worker's onmessage, posts
// {ready: true}, and from then on answers {id, verb, args, bytes?} with {id, ok: true, json, bytes?} or {id, ok: false,
// error}. There is no way to stop a request from inside: the page ends the whole worker instead.

importScripts('wasm_exec.js');

/** @param {MessageEvent<{module: WebAssembly.Module}>} event */
self.onmessage = async ({data: {module}}) => {
  try {
    const go = new Go();
    const instance = await WebAssembly.instantiate(module, go.importObject);
    await go.run(instance);
    postMessage({gone: 'The engine stopped by itself. Try again.'});
  } catch (error) {
    postMessage({gone: `The engine did not start: ${error instanceof Error ? error.message : error}.`});
  }
};
