// What this browser keeps: the last draft, after every change and when the page is left.

import {editor, alive} from './bridge.mjs';
import {note} from './notices.mjs';

const KEY = 'openwork:draft';
const UNREAD = 'openwork:draft-unread'; // a stored draft that would not open is put aside here, not written over
const PAUSE = 300; // ms

/** @type {number | null} */
let revision = null; // of the view
/** @type {number | null} */
let kept = null; // revision of what is stored
let fresh = false; // what was opened first is not what is stored
let timer = 0;
let complained = false;

// The stored draft's text, '' when there is none.
export function stored() {
  try {
    return localStorage.getItem(KEY) ?? '';
  } catch {
    return '';
  }
}

// Puts a stored draft that would not open aside, so that the next change does not write over it.
/** @param {string} text */
export function putAside(text) {
  try {
    localStorage.setItem(UNREAD, text);
  } catch { /* no room: the person is offered a download all the same */ }
}

/** @param {View} view */
export function renderStore(view) {
  if (view.revision === revision) return;
  const first = revision === null;
  revision = view.revision;
  if (first && !fresh) kept = revision; // the stored draft or the demonstration: nothing to keep yet
  clearTimeout(timer);
  timer = setTimeout(keep, PAUSE);
}

// Tells that what is open now came from elsewhere and is to be kept even if it is never changed.
export function cameFromElsewhere() {
  fresh = true;
}

// Stores the draft now, if it has changed. The editor is asked, not the last view that was shown: a change made just
// before the page is left may not have been shown yet.
export function keep() {
  clearTimeout(timer);
  if (revision === null || !alive()) return;
  const now = editor.view()?.revision;
  if (now === undefined || now === kept) return;
  const text = editor.save();
  if (!text) return;
  try {
    localStorage.setItem(KEY, text);
    kept = now;
  } catch {
    if (!complained) note('This browser has no room to keep the draft. Use Save before you close the page.');
    complained = true;
  }
}

export function bindStore() {
  addEventListener('pagehide', keep);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') keep();
  });
}
