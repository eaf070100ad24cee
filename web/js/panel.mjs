// Step 3: what becomes of copies at the margin. The sizes are number fields (fields.mjs).

import {editor} from './bridge.mjs';
import {alarm} from './notices.mjs';

const place = document.getElementById('edge');
let edge = '';

export function bindPanel() {
  place.addEventListener('change', (event) => {
    const sentence = editor.command('edge', {text: event.target.value});
    if (!sentence) return;
    alarm(sentence);
    mark();
  });
}

export function renderPanel(view) {
  edge = view.field.edge;
  mark();
}

function mark() {
  for (const radio of place.querySelectorAll('input')) radio.checked = radio.value === edge;
}
