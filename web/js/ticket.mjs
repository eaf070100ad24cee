// The job ticket: the steps of the job, one open at a time, each closed step a line that says what is chosen.

import {editor} from './bridge.mjs';
import {byId, every, find} from './dom.mjs';

const KEY = 'openwork:step';
const steps = every(document, '.step');
const ticket = byId('ticket');
const drawUp = byId('draw-up');
let inHand = ''; // the step that is open

// Opens a step by name and closes the others; '' closes all. The choice is kept for the next visit unless keep is
// false.
/** @param {string} name */
export function showStep(name, keep = true) {
  inHand = name;
  editor.stepInHand(name);
  for (const step of steps) {
    const open = step.dataset.step === name;
    step.classList.toggle('open', open);
    find(step, '.step-head').setAttribute('aria-expanded', String(open));
    find(step, '.step-body').hidden = !open;
  }
  head(name);
  if (!keep) return;
  try {
    localStorage.setItem(KEY, name);
  } catch { /* not kept */ }
}

// Brings the head of a step to the top of a list of steps that scrolls, so that a step opens at its head.
/** @param {string} name */
function head(name) {
  const step = steps.find((each) => each.dataset.step === name);
  const list = byId('steps');
  if (step && list.scrollHeight > list.clientHeight) list.scrollTop = step.offsetTop;
}

// On a narrow screen: draws the ticket up from the foot, or lets it down.
/** @param {boolean} up */
export function drawUpTicket(up) {
  ticket.classList.toggle('up', up);
  drawUp.setAttribute('aria-expanded', String(up));
  if (up) head(inHand);
}

export function bindTicket() {
  for (const step of steps) {
    find(step, '.step-head').addEventListener('click', () => {
      const open = step.classList.contains('open');
      showStep(open ? '' : step.dataset.step ?? '');
    });
  }
  drawUp.addEventListener('click', () => drawUpTicket(!ticket.classList.contains('up')));
  let name = 'repeat';
  try {
    name = localStorage.getItem(KEY) ?? name;
  } catch { /* the usual one */ }
  showStep(name);
}

/** @param {View} view */
export function renderTicket(view) {
  editor.stepInHand(inHand);
  for (const step of steps) find(step, '.line').textContent = view.lines[step.dataset.step ?? ''] ?? '';
}
