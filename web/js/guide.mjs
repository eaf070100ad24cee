// The guide: the job in seven short pieces with pictures, in a page of its own that is fetched when it is opened; the
// service worker keeps it like every other file, so that it opens without a network.

import {button, byId, every, make, within} from './dom.mjs';
import {showExamples} from './examples.mjs';
import {showHelp} from './help.mjs';
import {drawUpTicket, showStep} from './ticket.mjs';

const dialog = byId('guide', HTMLDialogElement);
const body = byId('guide-body');

let filled = false;

export function bindGuide() {
  byId('guide-open').addEventListener('click', () => showGuide());
  body.addEventListener('click', (event) => {
    const step = within(event, '[data-to]')?.dataset.to;
    if (!step) return;
    dialog.close();
    showStep(step);
    drawUpTicket(true);
  });
}

export async function showGuide() {
  every(document, 'dialog[open]', HTMLDialogElement)[0]?.close();
  dialog.showModal();
  if (!filled) await fill();
  body.scrollTop = 0;
}

async function fill() {
  try {
    const response = await fetch('guide.html');
    if (!response.ok) throw new Error(String(response.status));
    const page = new DOMParser().parseFromString(await response.text(), 'text/html');
    const last = make('p', 'row');
    last.append(button('plain edged', 'Examples to begin with…', () => {
      dialog.close();
      showExamples();
    }), button('plain edged', 'Keys and hands…', () => {
      dialog.close();
      showHelp();
    }));
    body.replaceChildren(...page.body.children, last);
    filled = true;
  } catch {
    body.replaceChildren(make('p', '', 'The guide cannot be reached just now. Open it again later.'));
  }
}
