// Sentences for the person: notes are said politely and go by themselves, errors are said at once and stay until
// closed.

import {button, byId, make} from './dom.mjs';

/** @typedef {{label: string, run: () => void}} Choice what there is to do about a sentence */

const STAY = 7000; // ms a note stays

const notes = byId('notice');
const alarms = byId('alarm');
let timer = 0;

// With stay it goes only when it is closed.
/** @param {string} sentence @param {{stay?: boolean}} [how] */
export function note(sentence, {stay = false} = {}) {
  show(notes, sentence);
  clearTimeout(timer);
  if (!stay) timer = setTimeout(() => notes.replaceChildren(), STAY);
}

// An error, with one thing to do about it if there is one.
/** @param {string} sentence @param {Choice} [choice] */
export function alarm(sentence, choice) {
  show(alarms, sentence, choice);
}

// Passes on what the editor answered: '' when all is well, or a sentence.
/** @param {string} sentence */
export function tell(sentence) {
  if (sentence) alarm(sentence);
}

// Sets an element's text. A live region speaks whenever its text is set: it is left alone while it says the same.
/** @param {HTMLElement} element @param {string} text */
export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** @param {HTMLElement} place @param {string} sentence @param {Choice} [choice] */
function show(place, sentence, choice) {
  const card = make('div', 'card');
  card.append(make('p', '', sentence));
  if (choice) card.append(button('plain small', choice.label, choice.run));
  card.append(button('plain small', 'Close', () => place.replaceChildren()));
  place.replaceChildren(card);
}

/**
 * Asks before something: resolves to true when the person goes on.
 * @param {{name: string, lines: string[], yes: string, no: string}} question
 * @returns {Promise<boolean>}
 */
export function ask({name, lines, yes, no}) {
  const dialog = byId('ask', HTMLDialogElement);
  byId('ask-name').textContent = name;
  byId('ask-text').replaceChildren(...lines.map((line) => make('p', '', line)));
  byId('ask-yes').textContent = yes;
  byId('ask-no').textContent = no;
  dialog.returnValue = 'no';
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener('close', () => resolve(dialog.returnValue === 'yes'), {once: true});
  });
}
