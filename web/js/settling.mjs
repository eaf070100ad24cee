// A copy that is let go of settles in the nearest place that holds: while the switch in the strip is on, or while the
// key is held down. Drag and settling are one entry of the history.

import {editor} from './bridge.mjs';
import {byId, sentenceOf, within} from './dom.mjs';
import {Superseded} from './engine.mjs';
/** @import {Lane} from './engine.mjs' */
import {alarm, note} from './notices.mjs';

const KEY = 'l';

const always = byId('hand-settle', HTMLInputElement);

/** @type {Lane} */
let lane;
let keyed = false; // the key is held down
let dragging = false; // a pointer that went down on the panel has something in hand
/** @type {{id: string, x: number, y: number} | null} */
let taken = null; // the motif in hand, and where it stood

/** @param {Lane} engine */
export function bindSettling(engine) {
  lane = engine;
  addEventListener('keydown', (event) => {
    if (event.key.toLowerCase() === KEY && !within(event, 'input, textarea, select')) keyed = true;
  });
  addEventListener('keyup', (event) => {
    if (event.key.toLowerCase() === KEY) keyed = false;
  });
  addEventListener('blur', () => { keyed = false; });
  byId('bench').addEventListener('pointerdown', () => { dragging = true; });
}

/** @param {View} view */
export function renderSettling(view) {
  const motif = view.motifs.find(({id}) => id === view.selected);
  if (view.inHand) {
    if (dragging && motif && !taken) taken = {id: motif.id, x: motif.x, y: motif.y};
    return;
  }
  const from = taken;
  taken = null;
  dragging = false;
  if (!from || !motif || motif.id !== from.id || !(always.checked || keyed)) return;
  if (motif.x !== from.x || motif.y !== from.y) settle(motif, view.revision);
}

/** @param {{id: string, x: number, y: number}} motif @param {number} revision */
async function settle(motif, revision) {
  try {
    const {value} = await lane.ask('settle', {draft: editor.save(), motif: motif.id}, {instead: true});
    const now = editor.view();
    if (!now || now.revision !== revision || now.inHand) return; // the hand has gone on
    const [x, y] = value.at;
    if (x === motif.x && y === motif.y) return;
    const sentence = editor.command('settle', {id: motif.id, values: {x, y}});
    if (sentence) alarm(sentence);
    else note('It settled where it holds. Undo takes drag and settling back together.');
    globalThis.openworkWake();
  } catch (error) {
    if (!(error instanceof Superseded)) note(sentenceOf(error));
  }
}
