// The verdict along the foot: the sentence, the way through the faults, the mend, and the list of faults above it.

import {editor} from './bridge.mjs';
import {button, byId, every, find, make, within} from './dom.mjs';
import {say, tell} from './notices.mjs';
import {drawUpTicket, showStep} from './ticket.mjs';

const foot = byId('foot');
const head = byId('verdict-head');
const line = byId('verdict-line');
const words = find(foot, '.words');
const mending = byId('mending');
const which = byId('fault-which');
const mend = byId('mend');
const panel = byId('fault-list');
const list = byId('faults');
const all = byId('faults-all');
const cure = byId('verdict-cure');

let rows = '';
let told = -1; // the fault that was gone to and said

export function bindVerdict() {
  cure.addEventListener('click', () => leadTo(cure.dataset.step ?? ''));
  which.addEventListener('click', () => open(panel.hidden));
  foot.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || panel.hidden) return;
    event.stopPropagation();
    open(false);
    which.focus();
  });
  document.addEventListener('pointerdown', (event) => {
    if (!panel.hidden && !within(event, '#foot')) open(false);
  });
}

/** @param {boolean} yes */
function open(yes) {
  panel.hidden = !yes;
  which.setAttribute('aria-expanded', String(yes));
  if (yes) {
    const first = every(list, '[aria-current=true]')[0] ?? list.querySelector('button');
    first?.focus();
    first?.scrollIntoView({block: 'center'});
  }
}

// Opens the step where something is cured, and what of it is folded away.
/** @param {string} step */
function leadTo(step) {
  open(false);
  showStep(step, false);
  drawUpTicket(true);
  const body = byId(`step-${step}`);
  const fold = step === 'make' ? byId('larger', HTMLDetailsElement) : null;
  if (fold) fold.open = true;
  const target = fold?.querySelector('summary') ?? every(body, 'input, button, select')[0];
  target?.focus();
  (fold ?? body).scrollIntoView({block: 'nearest'});
}

/** @param {View} view */
export function renderVerdict(view) {
  const {verdict, faults, fault} = view;
  foot.dataset.state = verdict.state;
  // While something is dragged it would never stop talking.
  words.setAttribute('aria-live', view.inHand ? 'off' : 'polite');
  say(head, verdict.head);
  say(line, verdict.line);
  const way = faults.length > 0 && verdict.state !== 'empty'; // the line says it all then
  mending.classList.toggle('in-hand', view.inHand); // and takes the room it took: nothing moves under a hand
  if (!view.inHand) mending.hidden = !way;
  if (!way) open(false);
  cure.hidden = !verdict.link;
  cure.dataset.step = verdict.step;
  say(cure, verdict.link);
  name(view.which.noun, view.which.rest);
  say(all, view.which.all);
  which.title = 'Show the whole list';
  if (!view.inHand) {
    mend.hidden = !view.mend;
    mend.textContent = view.mend;
    mend.title = view.mendEffect; // what the whole panel will then be
  }
  renderList(faults, fault);
  tellFault(view);
}

// Says the fault that was gone to, by whatever key or press, and shows its row where the list is open.
/** @param {View} view */
function tellFault({fault, faults, which: {noun, rest}}) {
  if (fault === told) return;
  told = fault;
  const it = faults[fault];
  say(byId('fault-said'), it ? `${noun}${rest}: ${it.text}${it.shows ? `, ${it.shows}` : ''}` : '');
  if (!panel.hidden) list.children[fault]?.scrollIntoView({block: 'nearest'});
}

// On a narrow screen the noun is left out (style.css).
/** @param {string} noun @param {string} rest */
function name(noun, rest) {
  which.replaceChildren(make('span', 'noun', noun), rest);
}

/** @param {FaultView[]} faults @param {number} fault */
function renderList(faults, fault) {
  const key = JSON.stringify(faults);
  if (key !== rows) {
    rows = key;
    const had = list.contains(document.activeElement);
    list.replaceChildren(...faults.map(row));
    if (had) (list.children[Math.max(fault, 0)]?.querySelector('button') ?? which).focus();
  }
  [...list.children].forEach((item, i) => {
    const button = find(item, 'button');
    if (i === fault) button.setAttribute('aria-current', 'true');
    else button.removeAttribute('aria-current');
  });
}

/** @param {FaultView} fault @param {number} index */
function row(fault, index) {
  const item = make('li', fault.severity);
  const go = button('go', '', () => editor.goTo(index));
  const places = [fault.severity === 'fault' ? '' : fault.severity, fault.shows].filter(Boolean).join(', ');
  go.append(make('span', '', fault.text), make('span', 'places', places));
  item.append(go);
  if (fault.mends.length || fault.step) {
    const moves = make('ul', 'moves');
    moves.append(...fault.mends.map(move));
    if (fault.step) moves.append(wayTo(fault.step));
    item.append(moves);
  }
  return item;
}

// The way to the step where a fault is cured.
/** @param {string} step */
function wayTo(step) {
  const item = make('li');
  item.append(button('plain small fix', 'Show me there', () => leadTo(step)));
  return item;
}

// One move that would put a fault right, with what was measured of it.
/** @param {MendView} move */
function move({index, text, effect}) {
  const item = make('li');
  item.append(button('plain small fix', text, () => tell(editor.mend(index))), make('span', 'does', effect));
  return item;
}
