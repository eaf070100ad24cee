// Ties, in the step Sheet: every island tied at once by the engine, or one by one by hand on the panel.

import {editor} from './bridge.mjs';
import {byId, sentenceOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Superseded} from './engine.mjs';
import {alarm, note, say, tell} from './notices.mjs';

const all = byId('tie-all', HTMLButtonElement);
const hand = byId('tie-hand');
const out = byId('tie-out', HTMLButtonElement);
const width = byId('tie-width', HTMLInputElement);
const line = byId('tie-line');

// Binds the buttons; lane is the engine's.
/** @param {Lane} lane */
export function bindTies(lane) {
  all.addEventListener('click', async () => {
    all.disabled = true;
    const before = editor.save();
    try {
      const {value} = await lane.ask('mend', {draft: before}, {instead: true});
      if (editor.save() !== before) return note('The draft has changed meanwhile; press the button once more.');
      if (!value.added) return note(value.text);
      const sentence = editor.command('ties', {ties: JSON.parse(value.draft).ties});
      if (sentence) alarm(sentence);
      else note(value.text);
    } catch (error) {
      if (!(error instanceof Superseded)) alarm(sentenceOf(error));
    } finally {
      all.disabled = false;
      globalThis.openworkWake();
    }
  });
  hand.addEventListener('click', () => tell(editor.act('tying')));
  out.addEventListener('click', () => tell(editor.act('untie')));
}

/** @param {View} view */
export function renderTies({tie}) {
  hand.setAttribute('aria-pressed', String(tie.shown));
  out.disabled = !tie.chosen;
  width.disabled = !tie.chosen;
  say(line, tie.text);
}
