// What is open over the bench, and how it is left: Escape and the browser's own way back close what was opened last,
// one thing at a press. While anything is open there is one more entry in the browser's history, which its way back
// takes away; the page itself stays.

import {alive, editor} from './bridge.mjs';
import {byId, every} from './dom.mjs';
import {drawUpTicket} from './ticket.mjs';

/**
 * What can be open.
 * @typedef {object} Layer
 * @property {Element} at where it shows that it is open
 * @property {() => boolean} open
 * @property {() => void} close
 * @property {() => void} [escape] what Escape does instead, where that is less than closing
 */

const drawing = () => document.body.classList.contains('drawing-on');

/** @type {Layer[]} */
const layers = [
  ...every(document, 'dialog', HTMLDialogElement).map((dialog) => ({
    at: dialog, open: () => dialog.open, close: () => dialog.close(),
  })),
  unfolding('fault-which'),
  unfolding('more'),
  unfolding('hand-open'),
  {
    at: document.body, open: drawing, close: () => void editor.act('draw-done'),
    escape: () => void editor.key('Escape', 0, true, false), // first the line or the points in hand
  },
  {
    at: byId('ticket'),
    open: () => byId('ticket').classList.contains('up') && byId('draw-up').checkVisibility(),
    close() {
      drawUpTicket(false);
      byId('draw-up').focus();
    },
  },
];

// What a button folds out and in again.
/** @param {string} id @returns {Layer} */
function unfolding(id) {
  const button = byId(id);
  return {
    at: button,
    open: () => button.getAttribute('aria-expanded') === 'true' && button.checkVisibility(),
    close() {
      button.click();
      button.focus();
    },
  };
}

/** @type {Layer[]} */
let stack = []; // what is open, the last opened last
let marked = false; // the history has an entry more
let going = false; // that entry is being taken away

export function bindLeaving() {
  const observer = new MutationObserver(follow);
  const attributeFilter = ['open', 'class', 'aria-expanded'];
  for (const {at} of layers) observer.observe(at, {attributes: true, attributeFilter});
  marked = Boolean(history.state?.open); // a page that was loaded anew
  follow();
  addEventListener('popstate', ({state}) => {
    marked = Boolean(state?.open);
    if (!going && !marked) leave((layer) => layer.close());
    going = false;
    follow();
  });
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || event.defaultPrevented || document.querySelector('dialog[open]')) return;
    if (leave((layer) => (layer.escape ?? layer.close)())) event.preventDefault();
  });
}

// Does something to what was opened last; false when nothing is open.
/** @param {(layer: Layer) => void} how */
function leave(how) {
  const last = stack.filter((layer) => layer.open()).at(-1);
  if (last && alive()) {
    how(last);
    globalThis.openworkWake();
  }
  return Boolean(last);
}

// Follows what has been opened and closed.
function follow() {
  const open = layers.filter((layer) => layer.open());
  stack = [...stack.filter((layer) => open.includes(layer)), ...open.filter((layer) => !stack.includes(layer))];
  if (going) return; // it goes on when the browser has been back
  if (stack.length && !marked) {
    history.pushState({open: true}, '');
    marked = true;
  } else if (!stack.length && marked) {
    going = true;
    history.back();
  }
}
