// The verdict along the foot: the sentence, the way through the faults, the mend, and the list of faults above it.

import {editor} from './bridge.mjs';
import {alarm, say} from './notices.mjs';
import {drawUpTicket, showStep} from './ticket.mjs';

const byId = (id) => document.getElementById(id);
const foot = byId('foot');
const head = byId('verdict-head');
const line = byId('verdict-line');
const words = foot.querySelector('.words');
const mending = byId('mending');
const which = byId('fault-which');
const mend = byId('mend');
const panel = byId('fault-list');
const list = byId('faults');
const all = byId('faults-all');
const cure = byId('verdict-cure');

let rows = '';

export function bindVerdict() {
  cure.addEventListener('click', () => leadTo(cure.dataset.step));
  which.addEventListener('click', () => open(panel.hidden));
  foot.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || panel.hidden) return;
    event.stopPropagation();
    open(false);
    which.focus();
  });
  document.addEventListener('pointerdown', (event) => {
    if (!panel.hidden && !foot.contains(event.target)) open(false);
  });
}

function open(yes) {
  panel.hidden = !yes;
  which.setAttribute('aria-expanded', String(yes));
  if (yes) {
    const first = list.querySelector('[aria-current=true]') ?? list.querySelector('button');
    first?.focus();
    first?.scrollIntoView({block: 'center'});
  }
}

// Opens the step where something is cured, and what of it is folded away.
function leadTo(step) {
  open(false);
  showStep(step, false);
  drawUpTicket(true);
  const body = byId(`step-${step}`);
  const fold = step === 'make' ? byId('larger') : null;
  if (fold) fold.open = true;
  const target = fold?.querySelector('summary') ?? body.querySelector('input, button, select');
  target?.focus();
  (fold ?? body).scrollIntoView({block: 'nearest'});
}

export function renderVerdict(view) {
  const {verdict, faults, fault} = view;
  foot.dataset.state = verdict.state;
  words.setAttribute('aria-live', view.inHand ? 'off' : 'polite'); // while something is dragged it would never stop talking
  say(head, verdict.head);
  say(line, verdict.line);
  const way = faults.length > 0 && verdict.state !== 'empty'; // the line says it all then
  mending.hidden = !way;
  if (!way) open(false);
  cure.hidden = !verdict.link;
  cure.dataset.step = verdict.step;
  say(cure, verdict.link);
  name(view.which.noun, view.which.rest);
  say(all, view.which.all);
  which.title = 'Show the whole list';
  mend.hidden = !view.mend;
  mend.textContent = view.mend;
  mend.title = view.mendEffect; // what the whole panel will then be
  renderList(faults, fault);
}

// On a narrow screen the noun is left out (style.css).
function name(noun, rest) {
  const text = document.createElement('span');
  text.className = 'noun';
  text.textContent = noun;
  which.replaceChildren(text, rest);
}

function renderList(faults, fault) {
  const key = JSON.stringify(faults);
  if (key !== rows) {
    rows = key;
    const had = list.contains(document.activeElement);
    list.replaceChildren(...faults.map(row));
    if (had) (list.children[Math.max(fault, 0)]?.querySelector('button') ?? which).focus();
  }
  [...list.children].forEach((item, i) => {
    const button = item.querySelector('button');
    if (i === fault) button.setAttribute('aria-current', 'true');
    else button.removeAttribute('aria-current');
  });
}

function row(fault, index) {
  const item = document.createElement('li');
  item.className = fault.severity;
  const go = document.createElement('button');
  go.type = 'button';
  go.className = 'go';
  const text = document.createElement('span');
  text.textContent = fault.text;
  const places = document.createElement('span');
  places.className = 'places';
  places.textContent = [fault.severity === 'fault' ? '' : fault.severity, fault.shows].filter(Boolean).join(', ');
  go.append(text, places);
  go.addEventListener('click', () => editor.goTo(index));
  item.append(go);
  if (fault.mends.length || fault.step) {
    const moves = document.createElement('ul');
    moves.className = 'moves';
    moves.append(...fault.mends.map(move));
    if (fault.step) moves.append(wayTo(fault.step));
    item.append(moves);
  }
  return item;
}

// The way to the step where a fault is cured.
function wayTo(step) {
  const item = document.createElement('li');
  const to = document.createElement('button');
  to.type = 'button';
  to.className = 'plain small fix';
  to.textContent = 'Show me there';
  to.addEventListener('click', () => leadTo(step));
  item.append(to);
  return item;
}

// One move that would put a fault right, with what was measured of it.
function move({index, text, effect}) {
  const item = document.createElement('li');
  const fix = document.createElement('button');
  fix.type = 'button';
  fix.className = 'plain small fix';
  fix.textContent = text;
  fix.addEventListener('click', () => {
    const sentence = editor.mend(index);
    if (sentence) alarm(sentence);
  });
  const does = document.createElement('span');
  does.className = 'does';
  does.textContent = effect;
  item.append(fix, does);
  return item;
}
