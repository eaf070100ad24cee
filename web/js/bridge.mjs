// The bridge to the editor: every call to the Go program's `openwork` goes through here, so that a program that has
// ended gives a sentence instead of an exception.

const GONE = 'The editor has stopped. Reload the page; your last draft is kept.';

let gone = false;
/** @type {((sentence: string) => void)[]} */
const mourners = [];

// Calls back once when the editor's program ends.
/** @param {(sentence: string) => void} callback */
export function onGone(callback) {
  mourners.push(callback);
}

// Marks the editor as ended. Later calls answer with a sentence.
export function markGone() {
  if (gone) return;
  gone = true;
  for (const callback of mourners) callback(GONE);
}

export function alive() {
  return !gone && typeof globalThis.openwork === 'object';
}

/**
 * What a function of the bridge answers; undefined when the editor has ended.
 * @template {keyof Bridge} N
 * @param {N} name
 * @param {Parameters<Bridge[N]>} args
 * @returns {ReturnType<Bridge[N]> | undefined}
 */
function call(name, ...args) {
  if (!alive()) return undefined;
  try {
    const run = /** @type {(...args: Parameters<Bridge[N]>) => ReturnType<Bridge[N]>} */ (globalThis.openwork[name]);
    return run(...args);
  } catch (error) {
    console.error(error);
    markGone();
    return undefined;
  }
}

/**
 * The functions of the bridge that answer a text.
 * @typedef {{[N in keyof Bridge]: Bridge[N] extends (...args: never[]) => string ? N : never}[keyof Bridge]} Telling
 */

/**
 * Calls what answers {} or {"error"}, and gives the sentence, '' when all is well.
 * @template {Telling} N
 * @param {N} name
 * @param {Parameters<Bridge[N]>} args
 * @returns {string}
 */
function act(name, ...args) {
  const text = call(name, ...args);
  if (text === undefined) return GONE;
  return text ? JSON.parse(text).error ?? '' : '';
}

/**
 * A list that the editor gives as JSON; empty when it has ended.
 * @param {string | undefined} text
 */
function list(text) {
  const value = text ? JSON.parse(text) : [];
  return Array.isArray(value) ? value : [];
}

export const editor = {
  // The view state, undefined when the editor has ended.
  view: () => {
    const text = call('view');
    /** @type {View | {error: string} | undefined} */
    const state = text ? JSON.parse(text) : undefined;
    return state && 'verdict' in state ? state : undefined;
  },
  // Has the panel looked at as it is now; the view and the canvas may show an earlier step of a drag until then.
  look: () => void call('look'),
  groups: () => /** @type {GroupCard[]} */ (list(call('groups'))),
  actions: () => /** @type {Action[]} */ (list(call('actions'))),
  /** @param {string} name @param {Omit<Command, 'name'>} [rest] */
  command: (name, rest = {}) => act('command', JSON.stringify({name, ...rest})),
  /** @param {string} name */
  act: (name) => act('act', name),
  /** @param {string} motif */
  select: (motif) => void call('select', motif),
  // A page of the list of copies, by its first; −1: that of the copy in hand. Undefined when the editor has ended.
  /** @param {number} from @param {number} count */
  copies: (from, count) => {
    const text = call('copies', from, count);
    return text ? /** @type {CopyList} */ (JSON.parse(text)) : undefined;
  },
  /** @param {CopyName} copy */
  holdCopy: ({motif, op, cell}) => act('holdCopy', motif, op, ...cell),
  // Sets where what is in hand is seen to lie: x, y, turn or scale.
  /** @param {string} name @param {number} value */
  placeHeld: (name, value) => act('placeHeld', name, value),
  mirrorHeld: () => act('mirrorHeld'),
  /** @param {number} fault */
  goTo: (fault) => void call('goto', fault),
  /** @param {string} text */
  demonstration: (text) => void call('demonstration', text),
  /** @param {string} name */
  stepInHand: (name) => void call('stepInHand', name),
  /** @param {string} text */
  start: (text) => act('start', text),
  /** @param {string} text */
  open: (text) => act('open', text),
  /** @param {string} address */
  openLink: (address) => act('openLink', address),
  save: () => call('save') ?? '',
  // The open draft's steps; undefined when the editor has ended.
  history: () => {
    const text = call('history');
    return text ? /** @type {DraftHistory} */ (JSON.parse(text)) : undefined;
  },
  /** @param {number} id */
  step: (id) => call('step', id) ?? '',
  /** @param {DraftHistory} history @param {string[]} texts the draft's file at each step */
  restore: (history, texts) => act('restore', JSON.stringify(history), texts),
  /** @param {number} id */
  visit: (id) => act('visit', id),
  link: () => /** @type {{fragment?: string, error?: string}} */ (JSON.parse(call('link') || '{}')),
  filename: () => call('filename') || 'openwork',
  /** @param {string} traced @param {number[]} chosen @param {string} mode @param {boolean} apart */
  pieces: (traced, chosen, mode, apart) => act('pieces', traced, JSON.stringify(chosen), mode, apart ? 'apart' : ''),
  /** @param {string} name */
  pen: (name, word = '', number = 0) => act('pen', name, word, number),
  /** @param {string} id */
  copySilhouette: (id) => act('copySilhouette', id),
  /** @param {string} id */
  mirrorSilhouette: (id) => act('mirrorSilhouette', id),
  /** @param {Parameters<Bridge['pointer']>} args */
  pointer: (...args) => call('pointer', ...args) ?? 'default',
  /** @param {Parameters<Bridge['wheel']>} args */
  wheel: (...args) => void call('wheel', ...args),
  /** @param {Parameters<Bridge['key']>} args */
  key: (...args) => call('key', ...args) === true,
  /** @param {number} token @param {string} json */
  answer: (token, json) => void call('answer', token, json),
  /** @param {number} token @param {string} sentence */
  answerFailed: (token, sentence) => void call('answerFailed', token, sentence),
  /** @param {number} token @param {string} json */
  recognised: (token, json) => void call('recognised', token, json),
  /** @param {number} token */
  recogniseFailed: (token) => void call('recogniseFailed', token),
  /** @param {number} token @param {string} json */
  mends: (token, json) => void call('mends', token, json),
  /** @param {number} token */
  mendsFailed: (token) => void call('mendsFailed', token),
  // Lets what lies under the canvas be seen through the bare panel, from 0 (not at all) to 1.
  /** @param {number} strength */
  seeThrough: (strength) => void call('seeThrough', strength),
  // Takes a subject up; '' lets go.
  /** @param {string} id */
  subject: (id) => void call('subject', id),
  // Rings places of the draft of a revision.
  /** @param {number} revision @param {Tangent[]} places */
  tangents: (revision, places) => void call('tangents', revision, JSON.stringify(places)),
  /** @param {boolean} on @param {string} swatch */
  brush: (on, swatch = '') => void call('brush', on, swatch),
  /** @param {string} look */
  seeAs: (look) => act('seeAs', look),
  /** @param {number} index */
  mend: (index) => act('mend', index),
  /** @param {boolean} on */
  showGaps: (on) => void call('showGaps', on),
  /** @param {number} token @param {object} found @param {Uint8Array} pixels */
  gaps: (token, found, pixels) => act('gaps', token, JSON.stringify(found), pixels),
  checkAgain: () => void call('checkAgain'),
  /** @param {string} name @param {Record<string, string>} palette */
  theme: (name, palette) => void call('theme', name, JSON.stringify(palette)),
};
