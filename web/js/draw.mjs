// Drawing: the strip under the drawing, what the pointer does there, and the silhouette's points by number in step 1.

import {editor} from './bridge.mjs';
import {byId, every, find, make, pressed} from './dom.mjs';
import {say, tell} from './notices.mjs';
import {drawUpTicket, showStep} from './ticket.mjs';
import {bindUnder, renderUnder} from './under.mjs';

const form = byId('draw');
const list = byId('draw-faults');
const use = byId('draw-use', HTMLSelectElement);
const half = byId('draw-half', HTMLInputElement);
const round = byId('draw-set-round', HTMLInputElement);
const fit = find(document, '.views [data-act=fit]');
const bench = byId('bench');
const help = byId('bench-help');
const words = {fit: fit.textContent, bench: bench.getAttribute('aria-label') ?? '', help: help.textContent};
const HELP = 'n and p take the next point and the one before, arrow keys move it, i sets a point, Enter closes a line '
  + 'of points, Escape leaves. Question mark shows all keys. Tab leaves the drawing.';

// Opens a silhouette for drawing; '' begins a new one.
/** @param {string} id */
export function draw(id) {
  tell(editor.pen('open', id));
  drawUpTicket(false);
  bench.focus();
}

export function bindDraw() {
  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    editor.key('Escape', 0, true, false);
    globalThis.openworkWake();
  });
  form.addEventListener('change', ({target}) => {
    if (target instanceof HTMLInputElement && target.name === 'way') tell(editor.pen('way', target.value));
    else if (target === use) tell(editor.pen('use', use.value));
    else if (target === half) tell(editor.pen('half'));
    else if (target === round) tell(editor.pen('round', round.checked ? 'round' : 'corner'));
    globalThis.openworkChanged(); // what was refused shows as it is
  });
  pressed('draw-new', () => draw(''));
  bindUnder();
}

/** @param {View} view */
export function renderDraw(view) {
  const {pen} = view;
  if (pen.open !== !form.hidden) turn(pen.open);
  renderUnder(view);
  if (!pen.open) return;
  find(form, `[name=way][value=${pen.way}]`, HTMLInputElement).checked = true;
  use.value = pen.use;
  half.checked = pen.half;
  round.checked = pen.round;
  byId('draw-name').textContent = pen.name || 'A new silhouette';
  say(byId('draw-said'), pen.wrong || pen.text);
  form.classList.toggle('broken', Boolean(pen.wrong));
  sayFaults(view.drawn, pen.lines > 0 && !pen.wrong && !pen.set);
  for (const part of every(form, '[data-for]')) part.hidden = !part.dataset.for?.split(' ').includes(pen.way);
  /** @type {Record<string, boolean>} */
  const has = {set: pen.set > 1, chosen: pen.chosen, piece: pen.piece};
  for (const button of every(document, '[data-needs]', HTMLButtonElement)) {
    button.disabled = !has[button.dataset.needs ?? ''];
  }
}

// Turns the bench over to drawing, or back to the panel.
/** @param {boolean} open */
function turn(open) {
  form.hidden = !open;
  byId('draw-numbers').hidden = !open;
  document.body.classList.toggle('drawing-on', open);
  bench.toggleAttribute('data-fine', open); // every move of the pointer counts (stage.mjs)
  fit.textContent = open ? 'Whole drawing' : words.fit;
  bench.setAttribute('aria-label', open ? 'The silhouette, drawn to scale' : words.bench);
  help.textContent = open ? HELP : words.help;
  if (open) showStep('silhouettes', false);
  else if (form.contains(document.activeElement)) bench.focus();
}

// Says what is wrong with what is drawn, each kind in a line, with how many more such places there are. All are ringed.
/** @param {DrawnFault[]} faults @param {boolean} whole there is an outline, and no line in hand */
function sayFaults(faults, whole) {
  const rows = faults.map(({severity, text, places}) => {
    const more = places > 1 ? ` And at ${places - 1} more.` : '';
    return `${severity === 'warning' ? 'Mind: ' : ''}${text}${more}`;
  });
  if (!rows.length && whole) rows.push('By itself the silhouette is sound.');
  const key = JSON.stringify(rows);
  if (list.dataset.rows === key) return;
  list.dataset.rows = key;
  list.replaceChildren(...rows.map((words, i) => make('li', faults[i]?.severity ?? 'well', words)));
  list.scrollTop = 0;
}
