// Perfect colourings as small pictures of the person's own field: one group of radio buttons, drawn by the engine while
// the step is open.

import {editor} from './bridge.mjs';
import {byId, every, make, sentenceOf, valueOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Stopped, Superseded} from './engine.mjs';
import {say, tell} from './notices.mjs';
import {addressOf, letGo} from './pictures.mjs';

const PAUSE = 120; // ms that the draft must rest
const SIDE = 104; // CSS px of a picture

const body = byId('step-paint');
const place = byId('colourings');
const said = byId('colourings-said');
const count = byId('colour-count', HTMLSelectElement);
const all = byId('colour-all', HTMLInputElement);

/** @type {Lane | null} */
let lane = null;
/** @type {View | undefined} */
let view;
/** @type {ColouredRow[]} */
let rows = [];
/** @type {string[]} */
let addresses = [];
let wanted = '';
let drawn = '';
let arranged = ''; // the colourings that the pictures show
let group = ''; // whose colourings these are: another group has other operations to permute by
let timer = 0;
let followed = -1; // how many colours the draft's own colouring has, when the count last went with it

/** @param {Lane} works */
export function bindColourings(works) {
  lane = works;
  count.addEventListener('change', soon);
  all.addEventListener('change', soon);
  place.addEventListener('change', (event) => {
    const row = rows[Number(valueOf(event))];
    tell(editor.command('colouring', row ? {perms: {a: row.a, b: row.b, ops: row.ops}} : {}));
  });
  new MutationObserver(soon).observe(body, {attributeFilter: ['hidden']});
}

/** @param {View} next */
export function renderColourings(next) {
  view = next;
  if (view.repeat.group !== group) clear();
  const {moved} = view.paint;
  if (moved !== followed) {
    followed = moved;
    if (moved > 1) count.value = String(moved);
  }
  if (!view.inHand) soon();
}

/** Takes away colourings that are no longer of the draft's group. */
function clear() {
  group = view?.repeat.group ?? '';
  rows = [];
  arranged = '';
  place.replaceChildren();
}

function soon() {
  clearTimeout(timer);
  if (body.hidden || !lane) return;
  timer = setTimeout(draw, PAUSE);
}

async function draw() {
  if (!lane || !view || body.hidden) return;
  const draft = editor.save();
  const px = Math.round(SIDE * Math.min(2, devicePixelRatio));
  wanted = JSON.stringify([draft, count.value, all.checked, px]);
  if (wanted === drawn) return;
  if (!view.motifs.length) {
    clear();
    return say(said, 'Place a silhouette first.');
  }
  const args = {draft, k: Number(count.value), all: all.checked, width: px, height: px};
  drawn = wanted;
  try {
    const {value, bytes} = await lane.ask('coloured', args, {instead: true});
    show(value, bytes);
  } catch (error) {
    if (error instanceof Superseded || error instanceof Stopped) return;
    drawn = '';
    say(said, sentenceOf(error));
  }
}

/** @param {ColouredRow[]} found @param {Uint8Array<ArrayBuffer>} bytes */
function show(found, bytes) {
  letGo(addresses);
  addresses = found.map((row) => addressOf(row, bytes));
  const key = JSON.stringify(found.map(({a, b, ops}) => [a, b, ops]));
  if (key !== arranged) {
    arranged = key;
    place.replaceChildren(
      card(-1, 'none', 'each motif in one colour'),
      ...found.map(({kept}, i) => card(i, kept, `keeps ${kept} in each colour`)),
    );
  }
  rows = found;
  every(place, 'img', HTMLImageElement).forEach((picture, i) => { picture.src = addresses[i]; });
  const taken = rows.findIndex((row) => row.taken);
  every(place, 'input', HTMLInputElement).forEach((radio, i) => {
    radio.checked = i > 0 ? i - 1 === taken : taken < 0 && !view?.paint.moved;
  });
  const ways = `${count.value} colours in ${group}`;
  const different = new Set(rows.map((row) => row.class)).size;
  say(said, !rows.length ? `There is no perfect colouring by ${ways}.`
    : `${different} truly different by ${ways}${different < rows.length ? `, ${rows.length} as they lie` : ''}. Every `
      + 'operation of the group carries each colour into one colour. Below each: the group that keeps a colour.');
}

/** @param {number} i @param {string} name @param {string} about */
function card(i, name, about) {
  const label = make('label', 'colouring');
  const radio = make('input');
  Object.assign(radio, {type: 'radio', name: 'colouring', value: String(i)});
  radio.setAttribute('aria-label', i < 0 ? `No colouring by symmetry: ${about}` : `Colouring ${i + 1}, which ${about}`);
  label.append(radio);
  if (i < 0) {
    label.append(make('span', 'no-picture', about));
  } else {
    const picture = make('img');
    Object.assign(picture, {alt: '', width: SIDE, height: SIDE});
    label.append(picture);
  }
  label.append(make('b', '', name));
  label.title = about;
  return label;
}
