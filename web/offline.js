// The page without a network: a service worker that keeps every file of one version of the page and answers with it.
//
// The packer writes the version and the files below: each by its name and the hash of its bytes, so that a version is
// kept as a whole or not at all, also while a host is being changed over. A later version is kept beside this one and
// waits until the page says that it may take over (js/offline.mjs). Addresses are relative to the folder that this file
// lies in.

/** @typedef {{waitUntil(work: Promise<unknown>): void, respondWith(answer: Promise<Response>): void, request: Request,
 *   data: unknown}} WorkerEvent */

const worker = /** @type {any} */ (self);

const VERSION = /* version */'';
/** @type {Record<string, string>} */
const FILES = /* files */{};

const INDEX = 'index.html';
const OWN = `openwork ${worker.registration.scope} `; // other copies of the page may lie on this host
const KEPT = OWN + VERSION;

// The address that a file is kept under. Some hosts send the index under the folder's name only.
/** @param {string} name */
function addressOf(name) {
  return new URL(name === INDEX ? './' : name, worker.registration.scope).href;
}

async function keep() {
  const kept = await caches.open(KEPT);
  await kept.addAll(Object.entries(FILES).map(([name, integrity]) => {
    return new Request(addressOf(name), {integrity, cache: 'no-cache'});
  }));
}

// Forgets what earlier versions of this copy of the page kept, and answers the tabs that are open already.
async function takeOver() {
  for (const name of await caches.keys()) {
    if (name.startsWith(OWN) && name !== KEPT) await caches.delete(name);
  }
  await worker.clients.claim();
}

// The name of the file that a request asks for; '' for anything else.
/** @param {Request} request */
function nameOf({method, url}) {
  const {origin, pathname} = new URL(url), scope = worker.registration.scope;
  if (method !== 'GET' || !(origin + pathname).startsWith(scope)) return '';
  const name = decodeURIComponent((origin + pathname).slice(scope.length)) || INDEX;
  return Object.hasOwn(FILES, name) ? name : '';
}

/** @param {string} name @param {Request} request */
async function answer(name, request) {
  const kept = await caches.open(KEPT);
  return await kept.match(addressOf(name), {ignoreVary: true}) ?? fetch(request);
}

worker.addEventListener('install', (/** @type {WorkerEvent} */ event) => event.waitUntil(keep()));
worker.addEventListener('activate', (/** @type {WorkerEvent} */ event) => event.waitUntil(takeOver()));
worker.addEventListener('message', (/** @type {WorkerEvent} */ {data}) => {
  if (data === 'take over') worker.skipWaiting();
});
worker.addEventListener('fetch', (/** @type {WorkerEvent} */ event) => {
  const name = nameOf(event.request);
  if (name) event.respondWith(answer(name, event.request));
});
