// The painter's own tubes, remembered on this machine, and what of them comes nearest to a swatch.

import {editor} from './bridge.mjs';
import {byId, pressed, sentenceOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Superseded} from './engine.mjs';
import {tooLarge} from './files.mjs';
import {say, tell} from './notices.mjs';
import {read} from './swatches.mjs';

const KEY = 'openwork:tubes';
const LONGEST = 200_000; // bytes of a file of tubes

const said = byId('match-said');
const file = byId('tubes-file', HTMLInputElement);
const choice = byId('match-swatch', HTMLSelectElement);
const writer = byId('match-note', HTMLButtonElement);
const matcher = byId('match', HTMLButtonElement);

/** @type {Lane | null} */
let lane = null;
/** @type {SwatchView[]} */
let swatches = [];
/** @type {Swatch[]} */
let tubes = [];
let shown = '';
/** @type {{id: string, note: string} | null} */
let found = null;

/** @param {Lane} works */
export function bindTubes(works) {
  lane = works;
  try {
    tubes = JSON.parse(localStorage.getItem(KEY) ?? '[]');
  } catch { /* none are remembered */ }
  if (!Array.isArray(tubes)) tubes = [];
  pressed('tubes-in', () => file.click());
  file.addEventListener('change', async () => {
    const [chosen] = file.files ?? [];
    file.value = '';
    if (!chosen) return;
    try {
      const large = tooLarge(chosen, LONGEST);
      if (large) throw new Error(large);
      take(read(await chosen.text()), `read from ${chosen.name}`);
    } catch (error) {
      say(said, sentenceOf(error));
    }
  });
  pressed('tubes-these', () => {
    take(swatches.map(({name, colour}) => ({id: '', name, colour})), 'taken from the swatches');
  });
  matcher.addEventListener('click', match);
  choice.addEventListener('change', () => forget(''));
  writer.addEventListener('click', () => {
    const swatch = swatches.find(({id}) => id === found?.id);
    if (!swatch || !found) return;
    const {id, name, colour} = swatch;
    tell(editor.command('reswatch', {id, swatches: [{id, name, colour, note: found.note}]}));
  });
  lock();
}

/** @param {Swatch[]} list @param {string} whence */
function take(list, whence) {
  tubes = list;
  try {
    localStorage.setItem(KEY, JSON.stringify(tubes));
  } catch { /* they hold until the page is left */ }
  const n = tubes.length;
  forget(`${n} ${n === 1 ? 'tube was' : 'tubes were'} ${whence}, to be remembered on this machine.`);
}

/** @param {SwatchView[]} now */
export function renderTubes(now) {
  swatches = now;
  const key = JSON.stringify(now.map(({id, name, colour}) => [id, name, colour]));
  if (key === shown) return;
  shown = key;
  const chosen = choice.value;
  choice.replaceChildren(...now.map(({id, name}) => new Option(name, id, id === chosen, id === chosen)));
  forget(said.textContent ?? '');
}

/** @param {string} text */
function forget(text) {
  found = null;
  say(said, text);
  lock();
}

function lock() {
  matcher.disabled = choice.disabled = !swatches.length || !tubes.length;
  byId('tubes-these', HTMLButtonElement).disabled = !swatches.length;
  writer.hidden = !found;
}

async function match() {
  const swatch = swatches.find(({id}) => id === choice.value);
  if (!lane || !swatch) return;
  say(said, 'Trying mixes…');
  try {
    const {value: {tube, mix}} = await lane.ask('match', {colour: swatch.colour, tubes}, {instead: true});
    const best = mix ?? tube;
    found = {id: swatch.id, note: named(best)};
    const mixed = mix
      ? `Nearer when mixed: ${named(mix)}, ${told(mix.apart)}. Mixes are an estimate, reckoned from what colours look `
        + 'like on a screen: try one before you mix it all.'
      : 'No mix of two or three comes nearer.';
    say(said, `Nearest tube to ${swatch.name}: ${named(tube)}, ${told(tube.apart)}. ${mixed}`);
    lock();
  } catch (error) {
    if (!(error instanceof Superseded)) forget(sentenceOf(error));
  }
}

/** @param {PaintMix} mix */
function named({tubes: names, parts}) {
  if (names.length === 1) return names[0];
  return names.map((name, i) => `${parts[i]} ${parts[i] === 1 ? 'part' : 'parts'} ${name}`).join(', ');
}

/** @param {number} apart */
function told(apart) {
  const plain = apart < 3 ? 'told apart only side by side' : 'a plain difference';
  const words = apart < 1 ? 'which nobody tells apart' : plain;
  return `${apart.toFixed(1)} away (CIEDE2000), ${words}`;
}
