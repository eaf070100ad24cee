// The sign that what is changed is not kept: it stands until it is again, and offers to save the draft as a file.

import {byId, pressed} from './dom.mjs';
import {say} from './notices.mjs';

const sign = byId('unkept');
const words = byId('unkept-said');

let held = 0; // pointers that are down
let wanted = ''; // the sentence, '' for none

/** @param {() => void} save @param {() => void} shelf */
export function bindUnkept(save, shelf) {
  pressed('unkept-save', save);
  pressed('unkept-room', shelf);
  addEventListener('pointerdown', () => { held++; }, true);
  for (const kind of ['pointerup', 'pointercancel']) {
    addEventListener(kind, () => {
      held = Math.max(0, held - 1);
      show();
    }, true);
  }
}

// Says that keeping failed, and why; standing: the draft as it stands is kept all the same, without its history.
/** @param {unknown} error @param {boolean} standing */
export function badly(error, standing) {
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  const why = full ? 'This browser has no room left for the page' : 'This browser does not let the page keep anything';
  wanted = standing ? `${why}: the draft as it stands is kept, its history and the shelf are not.`
    : `${why}: what you change now is not kept.`;
  show();
}

// Says that all is kept again.
export function well() {
  wanted = '';
  show();
}

// The strip takes room from the bench: it comes and goes while nothing is held.
function show() {
  if (held) return;
  say(words, wanted);
  sign.hidden = !wanted;
}
