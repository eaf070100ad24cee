// Step 3: what becomes of copies at the margin. The sizes are number fields (fields.mjs).

import {editor} from './bridge.mjs';
import {byId, every, valueOf} from './dom.mjs';
import {alarm} from './notices.mjs';

const place = byId('edge');
let edge = '';

export function bindPanel() {
  place.addEventListener('change', (event) => {
    const sentence = editor.command('edge', {text: valueOf(event)});
    if (!sentence) return;
    alarm(sentence);
    mark();
  });
}

/** @param {View} view */
export function renderPanel(view) {
  edge = view.field.edge;
  mark();
}

function mark() {
  for (const radio of every(place, 'input', HTMLInputElement)) radio.checked = radio.value === edge;
}
