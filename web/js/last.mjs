// What a tab opens first: the draft that it had open before it was loaded anew, else the last one of any tab, with its
// history. One that another tab has open comes as a copy.

import {forgetLast, lastMark, lastText, layAside, ownDraft} from './local.mjs';
/** @import {Mark} from './local.mjs' */
import {base, blank, entries, entryOf, fresh, textsOf, write} from './records.mjs';
/** @import {Entry} from './records.mjs' */
import {letGo, shelfChanged, take} from './tabs.mjs';

const RELOADED = 1500; // ms that a tab may need to let go of a draft when it is loaded anew
const PATIENCE = 4000; // ms that the store may need to open
const OTHER = 300; // and a tab that is open beside this one, in case it is just being closed

/**
 * A draft to be opened, with the draft's file at each row of its history.
 * @typedef {{entry: Entry, texts: string[], copy: boolean}} Found
 */

let rescued = '';

// The text of what was found, or of what lies in localStorage: for a page that cannot open it.
export function stored() {
  return rescued || lastText();
}

/** @returns {Promise<Found | null>} */
export async function findLast() {
  const text = lastText(), mark = lastMark(), own = ownDraft();
  try {
    await Promise.race([base(), new Promise((_, reject) => {
      setTimeout(() => reject(new Error('The store does not open.')), PATIENCE);
    })]);
    const kept = await entryToOpen(own, mark, text);
    if (kept) {
      const it = later(await draftFrom(kept, own === kept.id ? RELOADED : OTHER), text, mark);
      rescued = textOf(it);
      return it;
    }
  } catch (error) {
    console.info(error); // the store is closed to this page, or not whole: what lies in localStorage is left
  }
  return text ? await over(text, mark) ?? alone(text, mark) : null;
}

// A draft that was opened over another one just before the page was left, and is not in the store yet.
/** @param {string} text @param {Mark | null} mark @returns {Promise<Found | null>} */
async function over(text, mark) {
  try {
    const before = mark?.from ? await entryOf(mark.from) : undefined;
    if (!mark || !before || before.unread) return null;
    const entry = {...before, id: mark.id, made: Date.now(), when: 0};
    return later({entry, texts: await textsOf(before), copy: false}, text, mark);
  } catch {
    return null; // the draft itself is there
  }
}

/** @param {string} own @param {Mark | null} mark @param {string} text */
async function entryToOpen(own, mark, text) {
  for (const id of [own, mark?.id]) {
    const kept = id ? await entryOf(id) : undefined;
    if (kept && !kept.unread) return kept;
  }
  return text ? undefined : (await entries()).find((each) => !each.unread);
}

/**
 * A draft of the shelf with its texts. It is taken for this tab, or comes as a copy where another tab does not let it
 * go.
 * @param {Entry} entry
 * @param {number} patience ms
 * @returns {Promise<Found>}
 */
export async function draftFrom(entry, patience) {
  const free = await take(entry.id, patience);
  return {entry, texts: await textsOf(entry), copy: !free};
}

// A draft of which only the text is there.
/** @param {string} text @param {Mark | null} mark @returns {Found} */
function alone(text, mark) {
  const key = mark?.key || fresh();
  const row = {key, label: '', origin: key, base: '', size: text.length};
  return {texts: [text], copy: false, entry: {...blank(mark?.id || fresh()), now: key, rows: [row]}};
}

// What lies in localStorage may be a step later than what the store has.
/** @param {Found} it @param {string} text @param {Mark | null} mark @returns {Found} */
function later(it, text, mark) {
  const {entry, texts, copy} = it, {rows, now} = entry;
  if (!text || mark?.id !== entry.id || mark.key === now) return it;
  if (rows.some((row) => row.key === mark.key)) return {...it, entry: {...entry, now: mark.key}};
  const place = 1 + rows.findIndex((row) => row.key === now);
  const row = {key: mark.key, label: mark.label || 'change', origin: mark.origin, base: '', size: text.length};
  return {copy, texts: [...texts.slice(0, place), text],
    entry: {...entry, now: mark.key, rows: [...rows.slice(0, place), row]}};
}

// The draft's file as it stands.
/** @param {Found} it */
export function textOf({entry, texts}) {
  return texts[entry.rows.findIndex((row) => row.key === entry.now)] ?? '';
}

// Puts a draft that would not open aside, so that nothing is written over it: at once where localStorage has room, and
// on the shelf; false when there was no room for it anywhere.
/** @param {Found} it @returns {boolean | Promise<boolean>} */
export function putAside(it) {
  const laid = layAside(textOf(it));
  if (laid) forgetLast();
  const shelved = shelveAside(it, laid);
  return laid || shelved;
}

/** @param {Found} it @param {boolean} laid it lies aside elsewhere already */
async function shelveAside(it, laid) {
  const {entry, copy} = it, text = textOf(it);
  if (!copy) letGo(entry.id);
  try {
    const put = entry.when ? [] : [{key: entry.now, how: {text}}];
    const title = entry.title || 'A draft that cannot be read';
    await write({...entry, title, when: entry.when || Date.now(), unread: true}, put, []);
    if (!laid) forgetLast();
    shelfChanged();
    return true;
  } catch {
    return false;
  }
}
