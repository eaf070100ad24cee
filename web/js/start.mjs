// Starting the editor: what the browser must have, the program itself, and the sentence when it does not come.

/** @import {Stage} from './stage.mjs' */
import {alive, markGone} from './bridge.mjs';

// What this browser lacks, as a sentence that says so and what to do.
export class Lacking extends Error {}

function needWebAssembly() {
  if (typeof WebAssembly === 'object') return;
  throw new Lacking('This browser cannot run WebAssembly, which the drawing needs. '
    + 'Use a current Firefox, Chromium or Safari, or allow WebAssembly in this one’s settings.');
}

/** @param {Stage} stage */
function needWebGL2(stage) {
  if (stage.open()) return;
  throw new Lacking('This browser gives no WebGL 2, which the drawing needs. '
    + 'Switch on hardware acceleration in its settings, or use a current Firefox, Chromium or Safari, and reload.');
}

// Loads and runs the editor on the stage; resolves when it has drawn its first frame. begin() is called before that, as
// soon as `openwork` is there, to put the first draft on the bench, with what the promise `first` gives. A browser that
// lacks something rejects with Lacking.
/**
 * @template T
 * @param {Stage} stage
 * @param {Promise<T>} first
 * @param {(draft: T) => void} begin
 */
export async function start(stage, first, begin) {
  needWebAssembly();
  /** @type {Promise<void>} */
  const started = new Promise((resolve, reject) => {
    globalThis.openworkStarted = resolve;
    globalThis.openworkFailed = (sentence) => reject(new Error(sentence));
  });
  if (typeof Go !== 'function') throw new Error('wasm_exec.js is missing from this copy of the page.');
  const go = new Go();
  const loading = load('editor.wasm', go.importObject);
  loading.catch(() => {}); // awaited below, unless something is lacking
  needWebGL2(stage); // takes a while where the graphics must wake up first, and the program compiles meanwhile
  const [instance, draft] = await Promise.all([loading, first]);
  stage.prepare();
  const exit = go.run(instance);
  stage.settle();
  if (alive()) begin(draft);
  const ended = exit.then(() => {
    markGone();
    throw new Error('The editor stopped before it had drawn anything.');
  });
  ended.catch(() => {}); // later, markGone has said it
  const early = alive();
  await Promise.race([started, ended]);
  if (!early) begin(draft);
}

/** @param {string} address @param {WebAssembly.Imports} imports */
async function load(address, imports) {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} could not be fetched (${response.status}).`);
  if (response.headers.get('content-type')?.startsWith('application/wasm')) {
    return (await WebAssembly.instantiateStreaming(response, imports)).instance;
  }
  return (await WebAssembly.instantiate(await response.arrayBuffer(), imports)).instance;
}

// Resolves once the frame just drawn is on the screen.
/** @returns {Promise<void>} */
export function presented() {
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(() => resolve(), 0));
  });
}
