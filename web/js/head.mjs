// The head of the page: title, undo and redo, units, the menu of files, and the theme.

import {editor} from './bridge.mjs';
import {byId, find, within} from './dom.mjs';
import {typing} from './fields.mjs';
import {tell} from './notices.mjs';
import {choose, chosen} from './theme.mjs';

const title = byId('title', HTMLInputElement);
const units = byId('units');

const KEY = 'openwork:units';
let remembered = ''; // the unit that this machine was last used with

// Shows lengths in the unit that was last used on this machine.
export function restoreUnits() {
  try {
    remembered = localStorage.getItem(KEY) ?? '';
  } catch { /* the usual unit, then */ }
  if (remembered === 'in' && editor.view()?.units === 'mm') tell(editor.act('units'));
}

/** @param {View} view */
export function renderHead(view) {
  if (view.units !== (remembered || 'mm')) {
    remembered = view.units;
    try {
      localStorage.setItem(KEY, view.units);
    } catch { /* it holds until the page is left */ }
  }
  if (!title.matches(':focus')) title.value = view.title;
  document.title = view.title ? `${view.title} · Openwork` : 'Openwork';
  offer('undo', 'Undo', view.undo);
  offer('redo', 'Redo', view.redo);
  find(units, `[value=${view.units}]`, HTMLInputElement).checked = true;
  byId('corner').textContent = view.units;
  byId('cell-note').textContent = byId('cell').title = fixed(view.repeat.free);
}

// Which of the cell's three numbers the group fixes, in words.
/** @param {Record<string, boolean>} free */
function fixed({b, gamma}) {
  if (!b) return 'In this family b is as long as a, and the angle stands.';
  return gamma ? '' : 'In this family the angle is a right one.';
}

// Says on a button what it would take back or bring again.
/** @param {string} act @param {string} word @param {string} what */
function offer(act, word, what) {
  const to = find(document, `[data-act=${act}]`, HTMLButtonElement);
  to.disabled = !what;
  to.title = what ? `${word}: ${what}` : `Nothing to ${word.toLowerCase()}`;
}

/** @param {(name: string) => void} act does what a button names */
export function bindHead(act) {
  document.addEventListener('click', (event) => {
    const name = within(event, '[data-act]')?.dataset.act;
    if (name) act(name);
  });

  title.addEventListener('change', () => tell(editor.command('title', {text: title.value})));
  title.addEventListener('keydown', (event) => {
    if (event.key === 'Enter') title.blur();
  });
  units.addEventListener('change', () => act('units'));

  const more = byId('more');
  /** @param {boolean} open */
  const showMore = (open) => more.setAttribute('aria-expanded', String(open));
  more.addEventListener('click', () => showMore(more.getAttribute('aria-expanded') !== 'true'));
  document.addEventListener('pointerdown', (event) => {
    if (!within(event, '#files, #more')) showMore(false);
  });
  byId('files').addEventListener('click', (event) => {
    if (within(event, 'button')) showMore(false);
  });
  byId('files').addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || more.getAttribute('aria-expanded') !== 'true') return;
    event.preventDefault();
    showMore(false);
    more.focus();
  });

  const theme = byId('theme', HTMLSelectElement);
  theme.value = chosen();
  theme.addEventListener('change', () => choose(theme.value));
}

// Whether a field holds what the draft does not have yet.
/** @param {HTMLElement} input */
export function unsent(input) {
  return typing() || (input === title && title.value !== editor.view()?.title);
}
