// The verdict along the foot: the sentence, the way through the faults, the mend, and the list of faults above it.

import {editor} from './bridge.mjs';
import {alarm, say} from './notices.mjs';

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

let rows = '';

export function bindVerdict() {
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

export function renderVerdict(view) {
  const {verdict, faults, fault} = view;
  foot.dataset.state = verdict.state;
  words.setAttribute('aria-live', view.inHand ? 'off' : 'polite'); // while something is dragged it would never stop talking
  say(head, verdict.head);
  say(line, verdict.line);
  mending.hidden = !faults.length;
  if (!faults.length) open(false);
  const worst = faults.filter((each) => each.severity === 'fault').length;
  const noun = worst ? 'fault' : 'warning';
  const many = worst || faults.length; // warnings are counted where there is nothing worse
  if (fault < 0) name('', `${many} ${noun}${many === 1 ? '' : 's'}`);
  else name(faults[fault]?.severity === 'warning' ? 'warning ' : 'fault ', `${fault + 1} of ${faults.length}`);
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
  places.textContent = fault.places > 1 ? `${fault.places} places` : fault.severity === 'warning' ? 'warning' : '';
  go.append(text, places);
  go.addEventListener('click', () => editor.goTo(index));
  item.append(go);
  if (fault.mends.length) {
    const moves = document.createElement('ul');
    moves.className = 'moves';
    moves.append(...fault.mends.map(move));
    item.append(moves);
  }
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
