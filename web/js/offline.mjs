// The page without a network, and its versions: registers the service worker that keeps the page's files (offline.js).
// A new version says so, and waits for a press.

import {byId, pressed} from './dom.mjs';
import {alarm, say} from './notices.mjs';
import {kept} from './store.mjs';

const QUIET = 4000; // ms after the bench is set up until the files are fetched once more: nothing should wait for it
const OFTEN = 3_600_000; // ms between two looks for a new version, when the page comes to the front

const sign = byId('newer');
const words = byId('newer-said');
const take = byId('newer-take');

/** @type {ServiceWorker | null} */
let waiting = null; // a version that has been fetched
let pressedHere = false;

export function bindOffline() {
  const workers = navigator.serviceWorker;
  if (!workers) return; // an address that is not secure
  pressed('newer-take', takeOver);
  pressed('newer-later', () => { sign.hidden = true; });
  let had = Boolean(workers.controller);
  workers.addEventListener('controllerchange', () => {
    if (pressedHere) location.reload();
    else if (had) show('A new version was taken in another tab. Reload to go on with it.', 'Reload');
    had = true; // the first one to come changes nothing
  });
  setTimeout(() => register(workers), QUIET);
}

/** @param {ServiceWorkerContainer} workers */
async function register(workers) {
  let registration;
  try {
    registration = await workers.register('offline.js', {updateViaCache: 'none'});
  } catch (error) {
    return console.info(error); // this copy of the page has no such file, or the browser keeps nothing
  }
  offer(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const coming = registration.installing;
    coming?.addEventListener('statechange', () => {
      if (coming.state === 'installed') offer(registration.waiting);
    });
  });
  let last = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden' || Date.now() - last < OFTEN) return;
    last = Date.now();
    registration.update().catch(() => {}); // there is no network
  });
}

/** @param {ServiceWorker | null} worker */
function offer(worker) {
  if (!worker || !navigator.serviceWorker.controller) return; // the first one takes over by itself
  waiting = worker;
  show('A new version of this page is here.', 'Take it');
}

/** @param {string} sentence @param {string} press */
function show(sentence, press) {
  say(words, sentence);
  take.textContent = press;
  sign.hidden = false;
}

// Goes on with the new version: what is on the bench is kept before.
async function takeOver() {
  if (!await kept()) {
    return alarm('What is on the bench cannot be kept. Save it as a file before you take the new version.');
  }
  pressedHere = true;
  if (waiting?.state === 'installed') waiting.postMessage('take over');
  else location.reload();
}
