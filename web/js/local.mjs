// What lies in localStorage: the last state of the draft that any tab of this browser had open, and which it is. It is
// written at once and read without waiting. What this tab itself has open lies in its sessionStorage.

const KEY = 'openwork:draft'; // the draft's file
const MARK = 'openwork:draft-at'; // which draft and which step that is
const OPEN = 'openwork:open'; // of this tab: the draft that it has open
const ASKED = 'openwork:asked-to-last'; // the browser was asked to keep what is stored
const UNREAD = 'openwork:draft-unread'; // a stored draft that would not open is put aside here, not written over

/**
 * Of the draft and of the step, as in records.mjs; from: the draft that was open when this step was made.
 * @typedef {{id: string, key: string, label: string, origin: string, from: string}} Mark
 */

let untouchable = false; // what lies there could not be opened, and lies nowhere else

// Has the last state left alone, for as long as this page is open.
export function holdLast() {
  untouchable = true;
}

/** @param {() => Storage} storage @param {string} key */
function look(storage, key) {
  try {
    return storage().getItem(key) ?? '';
  } catch {
    return ''; // it is closed to this page
  }
}

// The last state's text, '' when there is none.
export function lastText() {
  return look(() => localStorage, KEY);
}

/** @returns {Mark | null} */
export function lastMark() {
  try {
    const mark = JSON.parse(look(() => localStorage, MARK) || 'null');
    return typeof mark?.id === 'string' && typeof mark.key === 'string' ? mark : null;
  } catch {
    return null;
  }
}

// The id of the draft that this tab had open before it was loaded anew.
export function ownDraft() {
  return look(() => sessionStorage, OPEN);
}

/** @param {string} id */
export function setOwnDraft(id) {
  try {
    sessionStorage.setItem(OPEN, id);
  } catch { /* then the last draft of any tab is opened */ }
}

// Lays a state down; where there is no room for it, an older one must not stand there.
/** @param {string} text @param {Mark} mark */
export function lay(text, mark) {
  if (untouchable) return;
  try {
    localStorage.setItem(KEY, text);
    localStorage.setItem(MARK, JSON.stringify(mark));
  } catch {
    try {
      localStorage.removeItem(KEY);
      localStorage.setItem(MARK, JSON.stringify(mark));
    } catch { /* it is closed to this page */ }
  }
}

// Forgets the last state, when it lies elsewhere.
export function forgetLast() {
  try {
    localStorage.removeItem(KEY);
    localStorage.removeItem(MARK);
  } catch { /* it is closed to this page */ }
}

// Puts a text that would not open aside; false when there was no room.
/** @param {string} text */
export function layAside(text) {
  try {
    localStorage.setItem(UNREAD, text);
    return true;
  } catch {
    return false;
  }
}

// Asks the browser to clear nothing when it is short of room: once, since some ask the person.
export async function askToLast() {
  try {
    if (localStorage.getItem(ASKED) || await navigator.storage.persisted()) return;
    localStorage.setItem(ASKED, 'yes');
    await navigator.storage.persist();
  } catch { /* there is no such promise to be had here; the shelf says so */ }
}
