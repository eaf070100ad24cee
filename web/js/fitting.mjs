// Step 2, the row that fits what is on the bench: tightest, largest or evenest, within what is held. The result is one
// entry of the history; where several that differ were found, one can go on to the next.

import {editor} from './bridge.mjs';
import {byId, every, sentenceOf} from './dom.mjs';
import {Lane, Stopped} from './engine.mjs';
import {holdInFits, pauseFits} from './fits.mjs';
import {addressOf, letGo, showPicture} from './pictures.mjs';
import {takeFit} from './pressing.mjs';
import {say} from './notices.mjs';
import {plain, write} from './units.mjs';
import {Bar} from './work.mjs';

const EFFORT = 30; // rounds of the search
const SKETCH = 2; // rounds until the first picture
const SIDE = 56; // CSS px of that picture
const LONGEST = 20; // s
const GAIN = 0.0005; // part: what is less is nothing gained

/** @typedef {'tightest' | 'largest' | 'evenest'} Find */

const row = byId('fit-row', HTMLFieldSetElement);
const opener = byId('held-open');
const holds = byId('held', HTMLFieldSetElement);
const said = byId('fit-said');
const soFar = byId('fit-so-far');
const other = byId('fit-other', HTMLButtonElement);
const bar = new Bar(byId('fit-work'), opener);
const lane = new Lane();

/** @type {View | undefined} */
let view;
let busy = false;
/** @type {FittedRow[]} */
let answers = []; // of the last question, as long as the draft is one of them
let at = 0;
let revision = -1; // of the draft with that answer
/** @type {string[]} */
let shown = []; // the address of the picture so far
let before = 0; // openings to the area of the draft that was fitted

export function bindFitting() {
  for (const button of finds()) {
    button.addEventListener('click', () => fit(/** @type {Find} */ (button.dataset.find), button.dataset.hold));
  }
  opener.addEventListener('click', () => {
    holds.hidden = !holds.hidden;
    opener.setAttribute('aria-expanded', String(!holds.hidden));
  });
  holds.addEventListener('change', () => {
    const on = held();
    say(opener, on.length ? `Held: ${on.length}` : 'Held: nothing');
    globalThis.openworkWake();
    if (view) holdInFits(motifsHeld);
  });
  other.addEventListener('click', next);
  holdInFits(motifsHeld);
}

const finds = () => every(row, '[data-find]', HTMLButtonElement);

// What is held, in the engine's words.
function held() {
  return every(holds, 'input:checked', HTMLInputElement).filter((input) => !input.closest('[hidden].tick'))
    .map((input) => input.value);
}

// What of it is about the motifs: the seventeen small pictures keep that too.
const motifsHeld = () => held().filter((word) => ['turn', 'half-turns', 'mirrored'].includes(word)).join();

/** @param {View} next */
export function renderFitting(next) {
  view = next;
  const {free} = view.repeat;
  byId('fit-fill').hidden = view.field.edge !== 'whole';
  /** @type {Record<string, boolean>} */
  const offered = {
    angle: free.gamma, proportion: free.b !== false, mirrored: view.motifs.length > 1,
  };
  for (const input of every(holds, 'input', HTMLInputElement)) {
    const label = input.closest('label');
    if (label) label.hidden = offered[input.value] === false;
  }
  if (view.revision !== revision && answers.length && !busy) {
    answers = [];
    say(said, '');
  }
  lock();
}

function lock() {
  for (const button of finds()) button.disabled = busy || !view?.motifs.length;
  other.hidden = answers.length < 2;
  other.disabled = busy;
  other.textContent = `Another like it (${at + 1} of ${answers.length})`;
}

/** @param {Find} find @param {string} [also] what is held besides */
async function fit(find, also) {
  if (!view) return;
  const hold = [...new Set([...held(), ...also ? [also] : []])].join();
  const {group} = view.repeat;
  const draft = editor.save();
  before = density(view);
  answers = [];
  busy = true;
  pauseFits(true);
  lock();
  say(said, `Looking for the ${find} ${group}…`);
  try {
    const progress = bar.begin(() => lane.stop('fit'));
    const question = {draft, find, groups: [group], hold};
    await sketch(question);
    const {value} = await lane.ask('fit', {...question, effort: EFFORT, seconds: LONGEST}, {progress});
    if (editor.save() !== draft) say(said, 'The draft has changed meanwhile; press the button once more.');
    else if (!also && !better(value[0])) say(said, unchanged(find, group));
    else show(value, 0);
  } catch (error) {
    say(said, error instanceof Stopped ? 'Stopped; nothing was changed.' : sentenceOf(error));
  } finally {
    busy = false;
    soFar.hidden = true;
    letGo(shown);
    shown = [];
    bar.end();
    pauseFits(false);
    lock();
  }
}

// Shows what the first rounds of a search find, while it goes on.
/** @param {EngineRequest} question */
async function sketch(question) {
  const side = Math.round(SIDE * (globalThis.devicePixelRatio || 1));
  try {
    const {value: [row], bytes} = await lane.ask('fit',
      {...question, effort: SKETCH, seconds: LONGEST / 4, width: side, height: side});
    if (!row.picture) return;
    shown = [addressOf(row.picture, bytes)];
    showPicture(soFar, shown[0]);
    const open = plain(100 * row.cover, 0);
    say(byId('fit-so-far-words'), `So far: ${open} % open, narrowest bridge ${size(row.narrowest)}.`);
    soFar.hidden = false;
  } catch (error) {
    if (error instanceof Stopped) throw error; // what the first rounds miss, later ones may find
  }
}

// Whether an answer is any better than what it was found for.
/** @param {FittedRow} answer */
function better({find, cover, scale, narrowest, was}) {
  if (!was.clear) return true; // it keeps the bridge now
  if (find === 'tightest') return cover > was.cover * (1 + GAIN);
  if (find === 'largest') return scale > 1 + GAIN;
  return narrowest > was.narrowest * (1 + GAIN);
}

/** @param {Find} find @param {string} group */
function unchanged(find, group) {
  const what = {tightest: 'tighter', largest: 'larger', evenest: 'more even'}[find];
  return `Nothing ${what} was found in ${group}${held().length ? ' with what is held' : ''}; the draft stays as it is.`;
}

// Takes one of the answers, and says what it gains.
/** @param {FittedRow[]} list @param {number} index */
function show(list, index) {
  if (!takeFit(list[index])) return;
  const now = editor.view();
  if (!now) return;
  [answers, at, revision] = [list, index, now.revision];
  say(said, gain(list[index], now));
}

// The next answer takes the place of the last one, which is no entry of its own.
function next() {
  if (editor.act('undo')) return;
  show(answers, (at + 1) % answers.length);
  lock();
}

// A width with its unit.
/** @param {number} mm */
function size(mm) {
  const unit = view?.units ?? 'mm';
  return `${unit === 'mm' ? mm.toFixed(2) : write(mm, 'fine', unit)} ${unit}`;
}

/** @param {FittedRow} answer @param {View} now */
function gain({find, scale, narrowest, evenness, was}, now) {
  const freed = was.clear ? '' : ' Copies came too near before.';
  if (find === 'largest') {
    return `Silhouettes ${scale.toFixed(2)} times as large, narrowest bridge ${size(narrowest)}.${freed}`;
  }
  if (find === 'evenest') {
    const then = was.clear ? `, it was ${size(was.narrowest)}` : '';
    return `Narrowest gap ${size(narrowest)}${then}; the widest is ${size(evenness.widest)}.${freed}`;
  }
  const part = 100 * (density(now) / before - 1);
  const openings = `${plain(Math.abs(part), Math.abs(part) < 10 ? 1 : 0)} % ${part < 0 ? 'fewer' : 'more'} openings`;
  return `${openings[0].toUpperCase()}${openings.slice(1)}, narrowest bridge ${size(narrowest)}.${freed}`;
}

// Openings to the square millimetre of field.
/** @param {View} view */
function density({repeat: {inCell, a, b, gamma}}) {
  return inCell / (a * b * Math.sin(gamma * Math.PI / 180));
}
