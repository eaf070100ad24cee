// The history of the open draft as a list: what was done, one step under the other, and a press that goes there.

import {editor} from './bridge.mjs';
import {button, byId, find, make, pressed} from './dom.mjs';
import {tell} from './notices.mjs';

const dialog = byId('history', HTMLDialogElement);
const list = byId('history-list');

export function bindHistory() {
  pressed('history-open', () => {
    show();
    dialog.showModal();
    here()?.focus();
  });
}

// The button of the step that the draft rests in.
function here() {
  return list.querySelector('[aria-current]') ? find(list, '[aria-current]', HTMLButtonElement) : null;
}

function show() {
  const {steps, now} = editor.history() ?? {steps: [], now: 0};
  const rows = steps.map(({id, label}, i) => {
    const row = make('li', i > now ? 'undone' : '');
    const name = i === 0 ? 'As it was opened' : label[0].toUpperCase() + label.slice(1);
    const step = button('plain', `${i}. ${name}`, () => visit(id));
    if (i === now) step.setAttribute('aria-current', 'step');
    row.append(step, make('span', 'hint', i === now ? 'on the bench' : i > now ? 'undone' : ''));
    return row;
  });
  list.replaceChildren(...rows.reverse()); // what was done last is looked for first
}

/** @param {number} id */
function visit(id) {
  tell(editor.visit(id));
  globalThis.openworkWake();
  show();
  here()?.focus();
}
