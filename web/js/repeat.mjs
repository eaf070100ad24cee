// Step 2 below the pictures: the cell in its own terms or in those of a lay of the trade, and what is needed more
// rarely: the lay, what is held, whole repeats on the panel, and what stands in its middle.

import {editor} from './bridge.mjs';
import {byId, every, valueOf, within} from './dom.mjs';
import {say, tell} from './notices.mjs';

const cell = byId('cell');
const rarer = byId('rarer');
const opener = byId('rarer-open');
const lay = byId('lay', HTMLFieldSetElement);
const hold = byId('hold', HTMLFieldSetElement);
const middle = byId('middle');
const found = byId('found');

// The cell's fields that each lay is spoken of by. A straight lay's sides are the cell's own.
/** @type {Record<string, string[]>} */
const spoken = {
  'straight': ['a', 'b'],
  'half-drop': ['width', 'drop'],
  'brick': ['height', 'step'],
  '': ['a', 'b', 'gamma'],
};

/** @type {View | undefined} */
let view;
let plain = false; // the person wants a, b and γ although the cell has a lay

export function bindRepeat() {
  opener.addEventListener('click', () => {
    rarer.hidden = !rarer.hidden;
    opener.setAttribute('aria-expanded', String(!rarer.hidden));
    if (rarer.hidden) return;
    byId('groups').querySelector('input:checked')?.closest('.group')?.scrollIntoView({block: 'nearest'});
    rarer.scrollIntoView({block: 'nearest'});
  });
  lay.addEventListener('change', (event) => {
    plain = valueOf(event) === '';
    if (!plain) tell(editor.command('lay', {text: valueOf(event)}));
    again();
  });
  hold.addEventListener('change', (event) => {
    tell(editor.act(`hold-${valueOf(event) || view?.repeat.hold}`)); // the same once more lets go
    again();
  });
  middle.addEventListener('click', (event) => {
    const what = within(event, 'button')?.dataset.middle;
    if (what) tell(editor.command('centre', {text: what}));
  });
}

// Shows the editor's view as it is now: the editor need not have said that it changed.
function again() {
  const now = editor.view();
  if (now) renderRepeat(now);
}

/** @param {View} next */
export function renderRepeat(next) {
  view = next;
  const {repeat} = view;
  const chosen = plain || !repeat.lays.includes(repeat.lay) ? '' : repeat.lay;
  renderCell(chosen);
  renderLay(repeat.lays, chosen);
  for (const radio of every(hold, 'input', HTMLInputElement)) radio.checked = radio.value === repeat.hold;
  hold.disabled = !repeat.canHold;
  hold.title = repeat.canHold ? '' : 'In this family both sides go together.';
  say(byId('fit'), repeat.fit);
  for (const button of every(middle, 'button', HTMLButtonElement)) {
    const what = button.dataset.middle ?? '';
    button.disabled = !repeat.middle[what];
    button.title = what === 'copies'
      ? (button.disabled ? 'Copies are cut at the margin; step 3 can keep whole ones only.'
        : 'All of them together come to the middle of the panel.')
      : button.disabled ? `${repeat.group} has none.` : 'The nearest one comes to the middle of the panel.';
  }
  if (!view.inHand) say(found, view.found.text); // its line would go, and the pictures move under the hand
}

/** @param {string} chosen */
function renderCell(chosen) {
  for (const field of every(cell, '[data-cell]')) field.hidden = !spoken[chosen].includes(field.dataset.cell ?? '');
  say(byId('cell-a'), chosen === 'straight' ? 'width' : 'a, along');
  say(byId('cell-b'), chosen === 'straight' ? 'height' : 'b, up');
}

/** @param {string[]} lays @param {string} chosen */
function renderLay(lays, chosen) {
  lay.hidden = !lays.length;
  for (const radio of every(lay, 'input', HTMLInputElement)) {
    radio.checked = radio.value === chosen;
    const label = radio.closest('label');
    if (label) label.hidden = radio.value !== '' && !lays.includes(radio.value);
  }
}
