// Fits of the seventeen groups, found by workers of their own while the draft rests: first a quick one of each group,
// then a better one where that finds more. They depend on the silhouettes, on the motifs' scale and hand and on the
// narrowest bridge, and stay as long as these do: not on the cell, nor on where motifs stand, which is what a fit
// finds.

import {editor} from './bridge.mjs';
import {sentenceOf} from './dom.mjs';
import {Lane, Superseded} from './engine.mjs';
import {addressOf, letGo} from './pictures.mjs';

const REST = 350; // ms the draft must rest before its fits are begun
// Rounds of the search for one motif; the engine takes several times as many for more.
const QUICK = 3, BETTER = 12;
const LONGEST = 12; // s that a fit of one group may take
const KEPT = 6; // drafts whose fits are kept, so that undoing finds them again
const MOST = 4; // workers

/** @typedef {{row: FittedRow, url: string}} Fit */
/** @typedef {{symbol: string, effort: number}} Job */
/** @typedef {{resolve: (fit: Fit) => void, reject: (error: Error) => void}} Hearer */

// The fits of one state of the silhouettes.
class Store {
  /** @type {Map<string, Fit>} */
  fits = new Map();
  /** @type {Map<string, string>} */
  none = new Map(); // why a group has no fit
  /** @type {Job[]} */
  todo;

  /** @param {string[]} symbols @param {number} motifs how many there are */
  constructor(symbols, motifs) {
    const efforts = [QUICK, BETTER].map((effort) => Math.max(1, Math.round(effort / motifs ** 1.5)));
    this.todo = efforts.flatMap((effort) => symbols.map((symbol) => ({symbol, effort})));
  }

  /** @param {string} symbol @param {FittedRow} row @param {Uint8Array<ArrayBuffer>} bytes */
  put(symbol, row, bytes) {
    const before = this.fits.get(symbol);
    this.none.delete(symbol);
    if (before && before.row.cover >= row.cover - 1e-6) return;
    this.fits.set(symbol, {row, url: row.picture ? addressOf(row.picture, bytes) : ''});
    if (before) letGo([before.url]);
  }
}

/** @type {Lane[]} */
const lanes = [];
/** @type {Map<Lane, Job>} */
const busy = new Map();
/** @type {Map<string, Store>} */
const stores = new Map(); // by what they depend on, the latest last
/** @type {Map<string, Hearer[]>} */
const hearers = new Map(); // who waits for a group's fit
/** @type {string[]} */
let symbols = [];
/** @type {() => void} */
let changed = () => {};
/** @type {() => string} */
let held = () => '';
let picture = {width: 0, height: 0}; // px of a small picture; 0 while there is no need of fits
let sized = () => {};
/** @type {Promise<void>} */
const pictured = new Promise((resolve) => (sized = resolve)); // that size is known
let revision = -1; // of the view that was last looked at
let hold = '';
let inHand = false;
let paused = false;
let key = '';
let text = ''; // the draft that has this key
/** @type {Store | null} */
let store = null;
let timer = 0;

/**
 * Begins: the groups to fit, what to call when there is a new fit, and what says which of the motifs' turns and hands
 * are held.
 * @param {string[]} all
 * @param {() => void} hear
 */
export function bindFits(all, hear) {
  symbols = all;
  changed = hear;
  const count = Math.min(MOST, Math.max(1, (navigator.hardwareConcurrency || 2) - 1));
  while (lanes.length < count) lanes.push(new Lane());
  document.addEventListener('visibilitychange', pump);
}

// Fits keep what a person holds of the motifs, in the engine's words.
/** @param {() => string} words */
export function holdInFits(words) {
  held = words;
}

// Says how large the small pictures are: from then on fits are wanted.
/** @param {number} width @param {number} height */
export function pictureFits(width, height) {
  picture = {width, height};
  sized();
  look();
}

// Other work of a person's goes first: no further fit is begun.
/** @param {boolean} on */
export function pauseFits(on) {
  paused = on;
  pump();
}

/** @param {View} view */
export function renderFits(view) {
  const was = inHand;
  inHand = view.inHand || view.pen.open;
  // The hand has the processor to itself: what is under way is begun anew when it rests.
  if (inHand && !was) for (const lane of busy.keys()) lane.drop('fit');
  if (view.revision === revision && held() === hold) return pump();
  clearTimeout(timer);
  if (!inHand) timer = setTimeout(look, REST);
}

/** @param {string} symbol @returns {Fit | undefined} */
export const fitOf = (symbol) => store?.fits.get(symbol);

// Why a group has no fit, '' where it has one or is still to be fitted.
/** @param {string} symbol */
export const noFit = (symbol) => store?.none.get(symbol) ?? '';

// Whether every group that is wanted has been fitted once.
export const allFitted = () => Boolean(store)
  && symbols.every((symbol) => fitOf(symbol) || noFit(symbol) || !wanted(symbol));

// Whether a group is fitted before somebody waits for it: not where the browser was asked to save data.
/** @param {string} symbol */
const wanted = (symbol) => !navigator.connection?.saveData || hearers.has(symbol);

/**
 * A group's fit for the draft as it stands, as soon as there is one. Rejects with a sentence where there is none, and
 * with Superseded when the draft has changed meanwhile, or another group is waited for.
 * @param {string} symbol
 * @returns {Promise<Fit>}
 */
export async function awaitFit(symbol) {
  const asked = editor.view()?.revision;
  await pictured;
  if (editor.view()?.revision !== asked) throw new Superseded();
  clearTimeout(timer);
  look();
  forget();
  const fit = fitOf(symbol);
  if (fit) return fit;
  if (noFit(symbol)) throw new Error(noFit(symbol));
  if (!store) throw new Error('There is no motif to fit. Place a silhouette first.');
  const {todo} = store;
  const next = todo.findIndex((job) => job.symbol === symbol);
  if (next > 0) todo.unshift(...todo.splice(next, 1));
  return new Promise((resolve, reject) => {
    hearers.set(symbol, [...hearers.get(symbol) ?? [], {resolve, reject}]);
    pump();
  });
}

// The draft has taken one of its fits: it is another draft, with the same fits.
export function tookFit() {
  text = editor.save();
  const now = keyOf(text);
  if (store && now && now !== key) keep(now, store);
  key = now;
  revision = editor.view()?.revision ?? revision;
}

// Looks at the draft, and fits it anew if something is new that fits depend on.
function look() {
  const view = editor.view();
  if (!view || !picture.width) return;
  revision = view.revision;
  hold = held();
  text = editor.save();
  const now = keyOf(text);
  if (now === key && store) return pump();
  key = now;
  forget();
  for (const lane of busy.keys()) lane.drop('fit');
  store = now ? stores.get(now) ?? new Store(symbols, view.motifs.length) : null;
  if (store) keep(now, store);
  changed();
  pump();
}

// What the fits of a draft depend on; '' where there is nothing to fit.
/** @param {string} text */
function keyOf(text) {
  if (!text) return '';
  const {silhouettes, motifs, sheet} = JSON.parse(text);
  if (!motifs.length) return '';
  const turned = /turn/.test(hold);
  const used = motifs.map((/** @type {Motif} */ {id, silhouette, scale, mirrored, turn}) => (
    [id, silhouette, scale, mirrored, turned ? turn : 0]));
  const shapes = silhouettes.map((/** @type {{id: string, outline: unknown}} */ {id, outline}) => [id, outline]);
  return JSON.stringify([used, shapes, sheet.bridge, sheet.opening, hold]);
}

// Keeps a draft's fits, and lets those go that were not asked for longest.
/** @param {string} as @param {Store} what */
function keep(as, what) {
  stores.delete(as);
  stores.set(as, what);
  for (const [old, gone] of stores) {
    if (stores.size <= KEPT) return;
    stores.delete(old);
    if (![...stores.values()].includes(gone)) letGo([...gone.fits.values()].map(({url}) => url));
  }
}

// Whoever waits for a fit hears that it is not wanted any more.
function forget() {
  for (const list of hearers.values()) for (const {reject} of list) reject(new Superseded());
  hearers.clear();
}

// Gives each idle worker the next group to fit.
function pump() {
  if (!store || inHand || paused || document.hidden || !picture.width) return;
  for (const lane of lanes) {
    if (busy.has(lane)) continue;
    const next = store.todo.findIndex(({symbol}) => wanted(symbol));
    if (next < 0) return;
    run(lane, store.todo.splice(next, 1)[0], store);
  }
}

/** @param {Lane} lane @param {Job} job @param {Store} of */
async function run(lane, job, of) {
  const {symbol, effort} = job;
  busy.set(lane, job);
  try {
    const {value, bytes} = await lane.ask('fit', {
      draft: text, find: 'tightest', groups: [symbol], effort, hold, seconds: LONGEST, ...picture,
    });
    of.put(symbol, value[0], bytes);
  } catch (error) {
    if (error instanceof Superseded) of.todo.unshift(job);
    else if (!of.fits.has(symbol)) of.none.set(symbol, sentenceOf(error));
  } finally {
    busy.delete(lane);
  }
  if (of === store) {
    tell(symbol);
    changed();
  }
  pump();
}

// Tells those who wait for a group's fit.
/** @param {string} symbol */
function tell(symbol) {
  const fit = fitOf(symbol), none = noFit(symbol);
  if (!fit && !none) return;
  const list = hearers.get(symbol) ?? [];
  hearers.delete(symbol);
  for (const {resolve, reject} of list) {
    if (fit) resolve(fit);
    else reject(new Error(none));
  }
}
