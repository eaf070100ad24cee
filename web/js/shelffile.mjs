// The whole shelf as one file, and back.

import {read, weight} from './delta.mjs';
/** @import {Written} from './delta.mjs' */
import {blank, entries, entryOf, fresh, write, writtenOf} from './records.mjs';
/** @import {Entry, Row} from './records.mjs' */

const VERSION = 1;
const SIGN = '{"openworkShelf":'; // how such a file begins

// Whether a text is a shelf's file.
/** @param {string} text */
export function isShelf(text) {
  return text.trimStart().startsWith(SIGN);
}

// The shelf's file.
export async function shelfFile() {
  const drafts = [];
  for (const entry of await entries()) {
    const {homes, ...rest} = entry; // other drafts' places hold in this browser only
    drafts.push({...rest, steps: await writtenOf(entry)});
  }
  return new Blob([`${SIGN}${VERSION},"drafts":[\n`, drafts.map((each) => JSON.stringify(each)).join(',\n'), '\n]}\n'],
    {type: 'application/json'});
}

/**
 * Puts the drafts of a shelf's file on the shelf, as far as it has room; one that lies there already, as it is, is
 * left.
 * Throws a sentence when it is no such file; then nothing is changed.
 * @param {string} text
 * @param {number} most drafts on the shelf
 * @returns {Promise<{taken: number, there: number, left: number}>}
 */
export async function takeShelf(text, most) {
  const drafts = draftsOf(text);
  let room = most - (await entries()).length;
  const done = {taken: 0, there: 0, left: 0};
  for (const {entry, steps} of drafts) {
    const old = await entryOf(entry.id);
    if (old?.now === entry.now) {
      done.there++;
    } else if (room <= 0) {
      done.left++;
    } else {
      const id = old ? fresh() : entry.id;
      await write({...entry, id}, entry.rows.map((row, i) => ({key: row.key, how: steps[i]})), []);
      done.taken++;
      room--;
    }
  }
  return done;
}

/** @param {string} text @returns {{entry: Entry, steps: Written[]}[]} */
function draftsOf(text) {
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    throw new Error('This shelf’s file is not whole; save it again where it came from.');
  }
  if (file?.openworkShelf !== VERSION || !Array.isArray(file.drafts)) {
    throw new Error(`This shelf’s file is of version ${file?.openworkShelf}, and this page reads version ${VERSION}.`);
  }
  return file.drafts.map((/** @type {unknown} */ draft, /** @type {number} */ i) => {
    try {
      return draftOf(draft);
    } catch {
      throw new Error(`Draft ${i + 1} of this shelf’s file is not whole; save it again where it came from.`);
    }
  });
}

// A draft of the file: only what is known of it, and only if all of it is there.
/** @param {any} it @returns {{entry: Entry, steps: Written[]}} */
function draftOf(it) {
  /** @param {unknown} value @param {'string' | 'number'} kind */
  const known = (value, kind) => {
    if (typeof value !== kind) throw new Error();
    return /** @type {any} */ (value);
  };
  /** @param {any} line @returns {string | [number, number]} */
  const lineOf = (line) => (Array.isArray(line) ? [known(line[0], 'number'), known(line[1], 'number')]
    : known(line, 'string'));
  let before = '';
  /** @type {Written[]} */
  const steps = it.steps.map((/** @type {any} */ step) => {
    /** @type {Written} */
    const how = 'text' in step ? {text: known(step.text, 'string')} : {lines: step.lines.map(lineOf)};
    before = read(before, how);
    return how;
  });
  const names = new Set();
  /** @type {Row[]} */
  const rows = it.rows.map((/** @type {any} */ row, /** @type {number} */ i) => {
    names.add(known(row.key, 'string'));
    const base = 'text' in steps[i] ? '' : it.rows[i - 1].key;
    return {key: row.key, label: known(row.label, 'string'), origin: known(row.origin, 'string'), base,
      size: weight(steps[i])};
  });
  if (names.size !== steps.length || !names.has(it.now)) throw new Error();
  /** @type {Entry} */
  const entry = {...blank(known(it.id, 'string')), title: known(it.title, 'string'), made: known(it.made, 'number'),
    when: known(it.when, 'number'), width: known(it.width, 'number'), height: known(it.height, 'number'), now: it.now,
    rows};
  return {entry, steps};
}
