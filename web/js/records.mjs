// The shelf as this browser keeps it (IndexedDB): its drafts, each step of their histories, and their pictures. A
// change is one transaction, so that what is stored is always whole.

import {read} from './delta.mjs';
/** @import {Written} from './delta.mjs' */

const BASE = 'openwork-shelf', VERSION = 1;
const DRAFTS = 'drafts', STEPS = 'steps', PICTURES = 'pictures';

/**
 * A step of a history. Its text follows from that of the step `base`, which is the one before; '' for a whole text.
 * @typedef {object} Row
 * @property {string} key no other step in this or another browser has it
 * @property {string} label what led to it, as Undo says it
 * @property {string} origin key of the step in which the draft was opened
 * @property {string} base
 * @property {number} size characters stored
 */

/**
 * A draft on the shelf.
 * @typedef {object} Entry
 * @property {string} id
 * @property {string} title
 * @property {number} made when it was first kept, and when it was last changed: ms, as Date.now()
 * @property {number} when
 * @property {number} width of the panel, mm
 * @property {number} height
 * @property {string} now key of the step that it rests in
 * @property {Row[]} rows its history, and perhaps that of drafts which were open before it
 * @property {Record<string, string>} homes where on the shelf those have their own place, by `origin`
 * @property {boolean} [unread] its text could not be opened
 */

/** @typedef {{key: string, how: Written}} Put a step to be written */

// A name that nothing else has.
export function fresh() {
  const some = crypto.getRandomValues(new Uint32Array(3));
  return [...some].map((part) => part.toString(36).padStart(7, '0')).join('');
}

// A draft that was never kept.
/** @param {string} id @returns {Entry} */
export function blank(id) {
  return {id, title: '', made: Date.now(), when: 0, width: 0, height: 0, now: '', rows: [], homes: {}};
}

/** @type {Promise<IDBDatabase> | null} */
let opening = null;
/** @type {IDBDatabase | null} */
let db = null;

// Opens the store ahead of its first use; rejects where this browser gives none.
export function base() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(BASE, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(DRAFTS, {keyPath: 'id'});
      request.result.createObjectStore(STEPS);
      request.result.createObjectStore(PICTURES);
    };
    request.onsuccess = () => {
      db = request.result;
      db.onversionchange = close; // another tab needs it for itself
      db.onclose = close;
      resolve(db);
    };
    request.onerror = () => reject(request.error);
  });
  opening.catch(close); // try again next time
  return opening;
}

function close() {
  db?.close();
  db = opening = null;
}

/**
 * Runs requests in one transaction. It begins at once when the store is open already, so that what is asked for while
 * the page is being left is still heard.
 * @template T
 * @param {IDBTransactionMode} mode
 * @param {(store: (name: string) => IDBObjectStore) => IDBRequest<T> | void} what
 * @returns {Promise<T>}
 */
async function deal(mode, what) {
  const store = db ?? await base();
  return new Promise((resolve, reject) => {
    const all = store.transaction([DRAFTS, STEPS, PICTURES], mode);
    /** @type {IDBRequest<T> | void} */
    let request;
    all.oncomplete = () => resolve(/** @type {T} */ (request?.result));
    all.onabort = () => reject(all.error ?? new Error('The store broke off.'));
    try {
      request = what((name) => all.objectStore(name));
      if (mode === 'readwrite') all.commit?.();
    } catch (error) {
      reject(error);
      all.abort(); // nothing is kept by halves
    }
  });
}

// The drafts on the shelf, the last one first.
export async function entries() {
  /** @type {Entry[]} */
  const all = await deal('readonly', (store) => store(DRAFTS).getAll());
  return all.sort((a, b) => b.when - a.when);
}

/** @param {string} id @returns {Promise<Entry | undefined>} */
export function entryOf(id) {
  return deal('readonly', (store) => store(DRAFTS).get(id));
}

// All keys of steps of a draft.
/** @param {string} id */
function stepsOf(id) {
  return IDBKeyRange.bound([id], [id, []]);
}

/**
 * The steps of a draft as they are written, in the order of its rows; id: where they lie.
 * @param {Entry} entry
 * @returns {Promise<(Written | undefined)[]>}
 */
export async function writtenOf({rows, ...entry}, id = entry.id) {
  /** @type {IDBRequest<IDBValidKey[]> | undefined} */
  let keys;
  /** @type {Written[]} */
  const values = await deal('readonly', (store) => {
    keys = store(STEPS).getAllKeys(stepsOf(id));
    return store(STEPS).getAll(stepsOf(id));
  });
  const byKey = new Map(values.map((value, i) => [/** @type {string[]} */ (keys?.result[i])[1], value]));
  return rows.map((row) => byKey.get(row.key));
}

// The draft's file at each step; throws where one is not whole.
/** @param {Entry} entry */
export async function textsOf(entry, id = entry.id) {
  let before = '';
  return (await writtenOf(entry, id)).map((how) => {
    if (!how) throw new Error('A step of the history is missing.');
    before = read(before, how);
    return before;
  });
}

/**
 * Keeps a draft: its entry, steps that are new, and without those that are gone.
 * @param {Entry} entry
 * @param {Put[]} put
 * @param {string[]} gone keys
 */
export function write(entry, put, gone) {
  return deal('readwrite', (store) => {
    for (const key of gone) store(STEPS).delete([entry.id, key]);
    for (const {key, how} of put) store(STEPS).put(how, [entry.id, key]);
    store(DRAFTS).put(entry);
  });
}

/** @param {string} id */
export function remove(id) {
  return deal('readwrite', (store) => {
    store(DRAFTS).delete(id);
    store(STEPS).delete(stepsOf(id));
    store(PICTURES).delete(id);
  });
}

/** @param {string} id @returns {Promise<{of: string, blob: Blob} | undefined>} of: the step that it shows */
export function pictureOf(id) {
  return deal('readonly', (store) => store(PICTURES).get(id));
}

/** @param {string} id @param {string} of @param {Blob} blob */
export function keepPicture(id, of, blob) {
  return deal('readwrite', (store) => { store(PICTURES).put({of, blob}, id); });
}
