// Scenes that the empty bench offers, each opened in one press.

import {editor} from './bridge.mjs';
import {button, make, sentenceOf} from './dom.mjs';
import {alarm, note} from './notices.mjs';
import {showStep} from './ticket.mjs';

/** @type {{name: string, file: string, step: string}[]} */
const SCENES = [
  {name: 'The heron before its carp', file: 'scene-heron-before-carp', step: 'subject'},
];

// The row of buttons that open them.
export function scenes() {
  const row = make('p', 'row scenes');
  row.append(make('span', 'hint', 'Or open a scene:'),
    ...SCENES.map(({name, file, step}) => button('plain edged', name, () => show(name, file, step))));
  return row;
}

/** @param {string} name @param {string} file @param {string} step */
async function show(name, file, step) {
  try {
    const response = await fetch(`scenes/${file}.openwork.json`);
    if (!response.ok) throw new Error(`${name} is missing from this copy of the page (${response.status})`);
    const sentence = editor.open(await response.text());
    if (sentence) return alarm(sentence);
    showStep(step);
    note(`${name} is open. Undo brings back what was open before.`);
  } catch (error) {
    alarm(`The scene could not be opened: ${sentenceOf(error)}`);
  }
}
