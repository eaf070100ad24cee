// What pressing one of the seventeen groups does: it takes the group's fit as one entry of the history, and pressed
// once more it gives the group with the cell as it was. A person who wants to keep the cell says so, and then nothing
// is fitted.

import {editor} from './bridge.mjs';
import {byId, sentenceOf} from './dom.mjs';
import {Superseded} from './engine.mjs';
import {awaitFit, fitOf, tookFit} from './fits.mjs';
import {alarm, say} from './notices.mjs';

const keep = byId('keep-cell', HTMLInputElement);
const line = byId('press-note');

/** @type {View | undefined} */
let view;
let waiting = ''; // the group whose fit is waited for
let presses = 0;
let renew = () => {};

// Begins; again is called when the pictures and the chosen group are to be shown anew.
/** @param {() => void} again */
export function bindPressing(again) {
  renew = again;
  keep.addEventListener('change', () => {
    forget();
    tell();
    renew();
  });
}

// Whether pressing a group keeps the cell.
export const keepsCell = () => keep.checked;

// The group that was pressed and waits for its fit, '' for none.
export const awaited = () => waiting;

/** @param {View} next */
export function renderPressing(next) {
  view = next;
  tell();
}

function tell() {
  const {group = '', fitted = false} = view?.repeat ?? {};
  if (waiting) return say(line, `Fitting ${waiting}…`);
  if (keep.checked) return say(line, 'Pressing a group keeps the cell, even where copies then overlap.');
  say(line, fitted ? `Press ${group} once more for the cell as it was.`
    : 'Pressing a group takes it fitted. Under each: how much is open, and a bridge where it holds.');
}

// A group was pressed.
/** @param {string} symbol */
export async function press(symbol) {
  forget();
  const here = view?.repeat.group === symbol && view.repeat.fitted;
  if (keep.checked || here || !view?.motifs.length) return done(editor.command('group', {text: symbol}));
  const press = presses;
  if (!fitOf(symbol)) waiting = symbol;
  tell();
  try {
    const {row} = await awaitFit(symbol);
    if (press !== presses) return;
    waiting = '';
    if (view?.inHand) return renew();
    takeFit(row);
  } catch (error) {
    if (press !== presses) return;
    waiting = '';
    if (!(error instanceof Superseded)) alarm(sentenceOf(error));
    renew();
  } finally {
    tell();
  }
}

// What was pressed before is not waited for any more.
function forget() {
  presses++;
  waiting = '';
}

// Takes a fit's repeat and motifs as one entry of the history; false when the editor would not have it.
/** @param {FittedRow} row */
export function takeFit({find, draft: {repeat, motifs}}) {
  const sentence = editor.command('fit', {text: find, repeat, motifs});
  if (!sentence && find === 'tightest') tookFit(); // others change the scale, or may
  return done(sentence);
}

/** @param {string} sentence */
function done(sentence) {
  if (sentence) {
    alarm(sentence);
    renew();
  }
  globalThis.openworkWake();
  return !sentence;
}
