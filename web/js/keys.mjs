// Keys that hold anywhere on the page.

import {within} from './dom.mjs';
import {openFile, save} from './files.mjs';
import {unsent} from './head.mjs';
import {showHelp} from './help.mjs';

/** @param {(name: string) => void} act does what a button names */
export function bindKeys(act) {
  addEventListener('keydown', (event) => {
    if (document.querySelector('dialog[open]')) return;
    const control = (event.ctrlKey || event.metaKey) && !event.altKey;
    const field = within(event, 'input:not([type=radio], [type=checkbox], [type=range]), textarea');
    const key = event.key.toLowerCase();
    if (control && key === 's') run(event, save);
    else if (control && key === 'o') run(event, openFile);
    else if (control && (key === 'z' || key === 'y')) {
      if (field && unsent(field)) return; // the field's own undo
      run(event, () => act(key === 'y' || event.shiftKey ? 'redo' : 'undo'));
    } else if (event.key === '?' && !field) run(event, showHelp);
  });
}

/** @param {Event} event @param {() => void} what */
function run(event, what) {
  event.preventDefault();
  what();
}
