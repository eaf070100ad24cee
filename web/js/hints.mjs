// The first minute: three short hints, each at the place where it is needed and gone for good once it has been done or
// closed. They come one after the other: drag a copy, press another way to lay it, bring in a silhouette of your own.

import {button, byId, find, make} from './dom.mjs';

const KEY = 'openwork:hints';

/**
 * A hint.
 * @typedef {object} Hint
 * @property {string} name
 * @property {string} words
 * @property {(it: HTMLElement) => void} put lays it where it is needed
 * @property {(view: View) => boolean} done by what was done last
 */

/** @type {Hint[]} */
const hints = [
  {
    name: 'drag',
    words: 'Press any copy and drag. The whole pattern follows.',
    put: (it) => find(document, '.saying').prepend(it),
    done: (now) => now.undo === 'place of a motif',
  },
  {
    name: 'group',
    words: 'Press another picture: what you have is laid in another of the seventeen ways.',
    put: (it) => byId('groups').before(it),
    done: (now) => now.undo === 'plane group' || now.undo.startsWith('fit'),
  },
  {
    name: 'own',
    words: 'Now one of your own: bring in a drawing here, or draw one.',
    put: (it) => find(document, '[data-step=silhouettes] h2').after(it),
    done: (now) => !now.demonstrates && now.silhouettes.length > 0,
  },
];

/** @type {Set<string>} */
const done = new Set();
/** @type {View | null} */
let shown = null;
/** @type {HTMLElement | null} */
let card = null; // of the hint that is shown

export function bindHints() {
  try {
    for (const name of JSON.parse(localStorage.getItem(KEY) ?? '[]')) done.add(name);
  } catch { /* they are shown once more */ }
}

/** @param {View} view */
export function renderHints(view) {
  if (done.size === hints.length && !card) return;
  shown = view;
  for (const hint of hints) {
    if (!done.has(hint.name) && hint.done(view)) finish(hint.name);
  }
  if (view.inHand) return; // nothing moves under a hand
  const next = view.motifs.length && !view.pen.open ? hints.find(({name}) => !done.has(name)) : undefined;
  if (card?.dataset.hint === next?.name) return;
  card?.remove();
  card = next ? cardOf(next) : null;
  if (card) next?.put(card);
}

/** @param {Hint} hint */
function cardOf({name, words}) {
  const it = make('p', 'first-hint');
  it.dataset.hint = name;
  const close = button('plain small', '×', () => {
    finish(name);
    if (shown) renderHints(shown);
  });
  close.setAttribute('aria-label', 'Close this hint');
  it.append(make('span', '', words), close);
  return it;
}

/** @param {string} name */
function finish(name) {
  done.add(name);
  try {
    localStorage.setItem(KEY, JSON.stringify([...done]));
  } catch { /* it is shown again next time */ }
}
