// What this browser keeps: the open draft with its history, step by step, as soon as a gesture rests. Each draft has a
// place of its own on the shelf (records.mjs). The last state lies in localStorage besides (local.mjs), where it is at
// once, also when the store breaks off or the page is torn away.

import {alive, editor} from './bridge.mjs';
import {weight, written} from './delta.mjs';
/** @import {Found} from './last.mjs' */
import {askToLast, lastText, lay, setOwnDraft} from './local.mjs';
/** @import {Entry, Put, Row} from './records.mjs' */
import {base, blank, entries, entryOf, fresh, remove, write} from './records.mjs';
import {has, letAllGo, letGo, shelfChanged, take, taken} from './tabs.mjs';
import {badly, well} from './unkept.mjs';

export const MOST = 50; // drafts on the shelf
const DEEP = 400; // steps of a history as it is stored: it may reach back further than the editor's
const HEAVY = 8 << 20; // characters of a history as it is stored: beyond that the oldest steps go
const LONG = 24 << 20; // characters of the texts that a history is restored from
const AGAIN = 15_000; // ms until keeping is tried again after it failed

/** @type {Entry | null} */
let entry = null; // the open draft as it is stored; null while it is not
let signature = ''; // of the history as it is stored
let untouched = ''; // key of the step that was opened and need not be kept
/** @type {Map<number, string>} */
let keys = new Map(); // of the steps of the editor's history, by their numbers
/** @type {Map<string, string>} */
let homes = new Map(); // ids of drafts, by the key of the step in which each was opened
let session = fresh(); // begins the keys of new steps
/** @type {number | null} */
let seen = null; // revision of the view that was last looked at
let begun = false; // something has been opened
let busy = false;
let again = false;
/** @type {Promise<void>} */
let writing = Promise.resolve(); // while it is busy
let timer = 0;

// The id of the draft that is open, '' while it has no place on the shelf.
export function openId() {
  return entry?.id ?? '';
}

// Puts what was found on the bench, with its history; '' when all is well, or the sentence that says why not.
/** @param {Found} it */
export function openFound({entry: kept, texts, copy}) {
  let from = 0, to = texts.length;
  let length = texts.reduce((sum, each) => sum + each.length, 0);
  const now = kept.rows.findIndex((row) => row.key === kept.now);
  for (; length > LONG && to > now + 1; to--) length -= texts[to - 1].length;
  for (; length > LONG && from < now; from++) length -= texts[from].length;
  const rows = kept.rows.slice(from, to);

  /** @type {Map<string, number>} */
  const numbers = new Map(rows.map((row, i) => [row.key, i + 1]));
  for (const {origin} of rows) if (!numbers.has(origin)) numbers.set(origin, numbers.size + 1);
  /** @param {string} key */
  const number = (key) => numbers.get(key) ?? 0;
  const steps = rows.map(({key, label, origin}) => ({id: number(key), origin: number(origin), label}));
  const sentence = editor.restore({steps, now: now - from, resting: true}, texts.slice(from, to));
  if (sentence) return sentence;

  if (entry && entry.id !== kept.id) letGo(entry.id);
  session = fresh();
  keys = new Map([...numbers].map(([key, id]) => [id, key]));
  homes = new Map(Object.entries(kept.homes));
  const {origin} = kept.rows[now];
  if (copy) homes.delete(origin);
  else homes.set(origin, kept.id);
  entry = !copy && kept.when ? kept : null; // one that was never stored is kept at once
  untouched = copy ? kept.now : '';
  signature = '';
  seen = null;
  begun = true;
  if (entry) setOwnDraft(kept.id);
  return '';
}

// Tells that what was opened first, the demonstration, need not be kept as long as it is not changed.
export function beganUnkept() {
  entry = null;
  begun = true;
  const history = editor.history();
  if (history) untouched = keyOf(history.steps[history.now].id);
}

/** @param {View} view */
export function renderStore(view) {
  if (view.inHand || view.revision === seen) return;
  seen = view.revision;
  keep();
}

/** @param {number} id */
function keyOf(id) {
  let key = keys.get(id);
  if (!key) keys.set(id, key = `${session}.${id}`);
  return key;
}

// Keeps the draft now, if it has changed: the last state in which no gesture was under way. The editor is asked, not
// the last view that was shown: a change made just before the page is left may not have been shown yet.
export function keep() {
  clearTimeout(timer);
  if (!begun || !alive()) return;
  const history = editor.history();
  if (!history) return;
  if (!history.resting) seen = null; // look again when it rests
  const now = history.steps[history.now], key = keyOf(now.id), origin = keyOf(now.origin);
  if (!entry && key === untouched) return;
  const sign = signOf(history);
  if (sign === signature && entry) return;

  const known = homes.get(origin), home = known ?? fresh();
  homes.set(origin, home);
  setOwnDraft(home);
  lay(editor.step(now.id), {id: home, key, label: now.label, origin, from: entry?.id ?? ''});
  if (busy) {
    again = true;
    return;
  }
  busy = true;
  const left = entry && entry.id !== home ? asLeft(history, entry) : null;
  if (entry && left) {
    writing = leave(entry, left).then(() => {
      busy = again = false;
      keep();
    });
    return;
  }
  if (!known) place(home);
  writing = entry?.id === home ? put(entry, history, sign) : settle(origin, home, key).then(() => {
    busy = again = false;
    keep(); // it has a place now, and may have changed meanwhile
  });
}

// Keeps the draft and waits until it is; false when it cannot be.
export async function kept() {
  keep();
  while (busy) await writing;
  const history = editor.history();
  if (!history) return false;
  return entry ? signOf(history) === signature : keyOf(history.steps[history.now].id) === untouched;
}

// Tells one state of the history from another.
/** @param {DraftHistory} history */
function signOf({steps, now}) {
  return `${keyOf(steps[now].id)} ${steps.map((step) => keyOf(step.id))}`;
}

// Gives the draft a new place on the shelf.
/** @param {string} id */
function place(id) {
  if (entry) letGo(entry.id);
  entry = blank(id);
  signature = '';
  return take(id);
}

// Finds the draft a place: that on the shelf which it has already, where it still stands as it was left and no other
// tab has it, else a new one.
/** @param {string} origin @param {string} home @param {string} key */
async function settle(origin, home, key) {
  /** @type {Entry | undefined} */
  let kept;
  if (await take(home)) {
    kept = await entryOf(home).catch(() => undefined);
    if (kept && kept.now !== key) {
      letGo(home);
      kept = undefined;
    }
  }
  const id = kept || has(home) ? home : fresh();
  homes.set(origin, id);
  await place(id);
  if (kept) entry = kept;
  setOwnDraft(id);
}

// The history as it was when the draft was left for another one, where the store has not all of it: its last changes
// came while earlier ones were being written.
/** @param {DraftHistory} history @param {Entry} open @returns {DraftHistory | null} */
function asLeft({steps, now, ...rest}, open) {
  let at = now - 1;
  while (at >= 0 && homes.get(keyOf(steps[at].origin)) !== open.id) at--;
  if (at < 0 || keyOf(steps[at].id) === open.now) return null;
  return {...rest, steps: steps.slice(0, at + 1), now: at};
}

// Keeps a draft as it was left.
/** @param {Entry} open @param {DraftHistory} left */
async function leave(open, left) {
  const {id} = left.steps[left.now];
  try {
    const {next, put, gone} = change(open, left, JSON.parse(editor.step(id)));
    await write(next, put, gone);
    entry = next;
    shelfChanged();
  } catch (error) {
    entry = {...open, now: keyOf(id)}; // it is not tried again: the bench has gone on
    badly(error, false);
  }
}

/** @param {Entry} open @param {DraftHistory} history @param {string} sign */
async function put(open, history, sign) {
  try {
    const {next, put, gone} = change(open, history);
    await write(next, put, gone);
    entry = next;
    signature = sign;
    well();
    shelfChanged();
    if (!open.when) await tidy();
    if (!open.when) askToLast();
  } catch (error) {
    badly(error, lastText() === editor.step(history.steps[history.now].id));
    timer = setTimeout(keep, AGAIN);
  }
  busy = false;
  if (!again) return;
  again = false;
  keep();
}

/** @typedef {{title?: string, panel: {width: number, height: number}}} Shown of a draft on the shelf */

// What is to be written so that the store has the history as it is now, of a draft that is on the bench or given.
/** @param {Entry} open @param {DraftHistory} history @param {Shown} [draft] */
function change(open, history, draft) {
  // Steps before the first that is stored were too heavy.
  const first = history.steps.findIndex((step) => keyOf(step.id) === open.rows[0]?.key);
  const steps = history.steps.slice(first <= history.now ? Math.max(0, first) : 0);
  const now = steps.indexOf(history.steps[history.now]);
  const had = new Map(open.rows.map((row) => [row.key, row]));
  /** @type {Map<string, Put>} */
  const puts = new Map();
  /** @param {number} i @param {string} before @returns {Row} */
  const add = (i, before) => {
    const {id, origin, label} = steps[i], key = keyOf(id);
    const how = written(before ? editor.step(steps[i - 1].id) : '', editor.step(id));
    puts.set(key, {key, how});
    return {key, label, origin: keyOf(origin), base: before, size: weight(how)};
  };

  const place = open.rows.findIndex((row) => row.key === keyOf(steps[0].id));
  const earlier = place + steps.length <= DEEP ? open.rows.slice(0, Math.max(0, place)) : [];
  const rows = [...earlier];
  steps.forEach((step, i) => {
    const row = had.get(keyOf(step.id)), before = rows.at(-1)?.key ?? '';
    rows.push(row && row.base === before ? row : add(i, before));
  });
  let size = rows.reduce((sum, row) => sum + row.size, 0), from = 0;
  while (size > HEAVY && from < earlier.length + now) size -= rows[from++].size;
  if (from) {
    from = Math.max(from, earlier.length); // of those before, the editor has no texts
    rows.splice(0, from + 1, add(from - earlier.length, ''));
  }

  const left = new Set(rows.map((row) => row.key));
  const {title = '', panel} = draft ?? editor.view() ?? {title: open.title, panel: open};
  /** @type {Entry} */
  const next = {...open, title, width: panel.width, height: panel.height, when: Date.now(), rows,
    now: keyOf(steps[now].id), homes: Object.fromEntries(homes)};
  const put = [...puts.values()].filter(({key}) => left.has(key));
  return {next, put, gone: [...had.keys()].filter((key) => !left.has(key))};
}

// Takes off the shelf what is more than it holds: the oldest, unless a tab has them open.
async function tidy() {
  const [all, open] = await Promise.all([entries(), taken()]);
  for (const {id} of all.slice(MOST)) if (!open.has(id)) await remove(id);
}

export function bindStore() {
  addEventListener('pagehide', () => {
    keep();
    letAllGo();
  });
  addEventListener('pageshow', (event) => {
    if (!event.persisted) return;
    entry = null; // another tab may have taken it meanwhile
    keep();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') keep();
  });
  base().catch(() => {}); // ahead of the first change
}
