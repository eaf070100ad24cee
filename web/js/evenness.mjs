// Step 2: how even the gaps between openings are, painted on the sheet by their width, with the narrowest, the widest,
// and what the eye would catch on: an alley that one sees through, a stripe. The engine measures, here it gets colours
// and words, and the editor draws it.

import {editor} from './bridge.mjs';
import {byId, make, sentenceOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Stopped, Superseded} from './engine.mjs';
import {say} from './notices.mjs';
import {measure} from './units.mjs';

const SIDE = 320; // px: one cell's gaps are painted on about so many, squared
const LOUD = 0.6; // of a stripe's contrast: a rule of thumb of our own

// From gaps of no width to the widest: dark to light, so that it is read without telling hues apart.
/** @type {[number, number, number][]} */
const SCALE = [[104, 76, 44], [170, 122, 62], [222, 182, 104], [255, 244, 210]];

const box = byId('gaps', HTMLInputElement);
const found = byId('gaps-found');
const legend = byId('gaps-legend');
const words = byId('gaps-words');
const cautions = byId('gaps-cautions');

/** @type {Lane | null} */
let lane = null;
let asked = -1; // the token that is worked on, or was answered for
let answered = -1; // and that the answer is for
/** @type {EvennessAnswer | null} */
let answer = null;
/** @type {Uint8Array} */
let painted = new Uint8Array();
let wrong = '';
let spoken = ''; // what was last said, with its units

/** @param {Lane} engineLane */
export function bindEvenness(engineLane) {
  lane = engineLane;
  const stops = SCALE.map((colour) => `rgb(${colour.join()})`).join();
  byId('gaps-scale').style.background = `linear-gradient(to right, ${stops})`;
  box.addEventListener('change', () => {
    asked = answered = -1;
    answer = null;
    editor.showGaps(box.checked);
    globalThis.openworkChanged();
    globalThis.openworkWake();
  });
}

/** @param {View} view */
export function renderEvenness(view) {
  const {shown, wanted} = view.gaps;
  box.checked = shown;
  found.hidden = !shown;
  if (!shown) {
    lane?.drop('evenness');
    return;
  }
  if (wanted && lane && asked !== view.check.token) {
    asked = view.check.token;
    ask(lane, asked);
  }
  const key = JSON.stringify([answered, Boolean(answer), wrong, view.units, view.sheet.bridge, view.motifs.length > 0]);
  if (key === spoken) return;
  spoken = key;
  tell(view);
}

/** @param {Lane} lane @param {number} token */
async function ask(lane, token) {
  try {
    const what = {draft: editor.save(), width: SIDE, height: SIDE};
    const {value, bytes} = await lane.ask('evenness', what, {instead: true});
    if (asked !== token) return;
    [answer, painted, wrong, answered] = [value, bytes, '', token];
  } catch (error) {
    if (error instanceof Superseded || error instanceof Stopped || asked !== token) return;
    [answer, wrong, answered] = [null, sentenceOf(error), token];
    editor.gaps(token, {across: 0, up: 0, lines: []}, new Uint8Array());
  }
  globalThis.openworkChanged();
  globalThis.openworkWake();
}

// Says it, and has it drawn again with widths in the unit that is shown.
/** @param {View} view */
function tell(view) {
  legend.hidden = !answer?.raster;
  if (!answer) {
    say(words, wrong || (view.motifs.length ? 'Measuring…' : 'Nothing is placed in the cell yet.'));
    cautions.replaceChildren();
    return;
  }
  const {narrowest, widest} = answer;
  say(byId('gaps-widest'), measure(widest.width, view.units));
  const wide = `widest ${measure(widest.width, view.units)}`;
  say(words, narrowest
    ? `Narrowest gap ${measure(narrowest.width, view.units)}, ${wide}: ${ratio(widest.width / narrowest.width)} to 1.`
    : `Copies run together; ${wide}.`);
  cautions.replaceChildren(...warnings(view, answer).map((text) => make('li', '', text)));
  if (answered === asked) give(view, answer);
}

/** @param {View} view @param {EvennessAnswer} answer */
function warnings({units, sheet}, {alley, stripe}) {
  const out = [];
  if (wide(alley, sheet.bridge)) {
    out.push(`One sees straight through between the copies: a corridor ${measure(alley?.width ?? 0, units)} wide. `
      + `Bridges are asked from ${measure(sheet.bridge, units)}.`);
  }
  if (stripe.contrast > LOUD) {
    out.push(`The copies gather into stripes, ${measure(stripe.band.width, units)} from one to the next: contrast `
      + `${stripe.contrast.toFixed(2)}. From ${LOUD} on they show across a room; that limit is our rule of thumb.`);
  }
  return out;
}

/** @param {BandPlace | null} alley @param {number} bridge */
function wide(alley, bridge) {
  return Boolean(alley && alley.width > bridge + 0.005);
}

// Hands the painted gaps to the editor, with the lines that go over them.
/** @param {View} view @param {EvennessAnswer} answer */
function give(view, {narrowest, widest, alley, stripe, raster}) {
  const {units, sheet} = view;
  /** @type {object[]} */
  const lines = [];
  /** @param {string} kind @param {[Point, Point]} ends @param {string} text @param {boolean} warn */
  const line = (kind, [a, b], text, warn) => lines.push({kind, a, b, text, warn});
  /** @param {BandPlace} at @param {string} before */
  const band = (at, before) => {
    for (const edge of at.edges) line('dashes', edge, '', true);
    line('width', at.ends, before + measure(at.width, units), true);
  };
  line('disc', widest.ends, '', false);
  line('width', widest.ends, measure(widest.width, units), false);
  if (narrowest) line('width', narrowest.ends, measure(narrowest.width, units), false);
  if (alley && wide(alley, sheet.bridge)) band(alley, 'alley ');
  if (stripe.contrast > LOUD) band(stripe.band, 'stripe every ');
  editor.gaps(asked, {across: raster?.across ?? 0, up: raster?.up ?? 0, lines}, raster ? coloured(painted) : painted);
}

// The engine's bytes, 0 for none and else 1 to 255, as red, green, blue and alpha.
/** @param {Uint8Array} bytes */
function coloured(bytes) {
  const table = Array.from({length: 256}, (_, i) => {
    const at = Math.max(0, i - 1) / 254 * (SCALE.length - 1);
    const stop = Math.min(Math.floor(at), SCALE.length - 2);
    return SCALE[stop].map((from, k) => Math.round(from + (SCALE[stop + 1][k] - from) * (at - stop)));
  });
  const out = new Uint8Array(4 * bytes.length);
  bytes.forEach((value, i) => {
    if (value) out.set([...table[value], 255], 4 * i);
  });
  return out;
}

/** @param {number} value */
function ratio(value) {
  return value < 100 ? value.toFixed(1) : String(Math.round(value));
}
