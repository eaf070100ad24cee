// The bridge to the editor: every call to the Go program's `openwork` goes through here, so that a program that has ended
// gives a sentence instead of an exception.

const GONE = 'The editor has stopped. Reload the page; your last draft is kept.';

let gone = false;
const mourners = [];

// Calls back once when the editor's program ends.
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

function call(name, ...args) {
  if (!alive()) return undefined;
  try {
    return globalThis.openwork[name](...args);
  } catch (error) {
    console.error(error);
    markGone();
    return undefined;
  }
}

// Calls what answers {} or {"error"}, and gives the sentence, '' when all is well.
function act(name, ...args) {
  const text = call(name, ...args);
  if (text === undefined) return GONE;
  return read(text).error ?? '';
}

function read(text) {
  if (typeof text !== 'string' || text === '') return {};
  return JSON.parse(text);
}

export const editor = {
  view: () => read(call('view')),
  groups: () => list(call('groups')),
  actions: () => list(call('actions')),
  command: (name, rest = {}) => act('command', JSON.stringify({name, ...rest})),
  act: (name) => act('act', name),
  select: (motif) => act('select', motif),
  goTo: (fault) => act('goto', fault),
  start: (text) => act('start', text),
  open: (text) => act('open', text),
  openLink: (address) => act('openLink', address),
  save: () => call('save') ?? '',
  link: () => read(call('link')),
  filename: () => call('filename') || 'openwork',
  pieces: (traced, chosen, mode) => act('pieces', traced, JSON.stringify(chosen), mode),
  pen: (name, word = '', number = 0) => act('pen', name, word, number),
  copySilhouette: (id) => act('copySilhouette', id),
  mirrorSilhouette: (id) => act('mirrorSilhouette', id),
  pointer: (...args) => call('pointer', ...args) ?? 'default',
  wheel: (...args) => call('wheel', ...args),
  key: (...args) => call('key', ...args) === true,
  answer: (token, json) => call('answer', token, json),
  recognised: (token, json) => call('recognised', token, json),
  recogniseFailed: (token) => call('recogniseFailed', token),
  mends: (token, json) => call('mends', token, json),
  mendsFailed: (token) => call('mendsFailed', token),
  mend: (index) => act('mend', index),
  checkAgain: () => call('checkAgain'),
  answerFailed: (token, sentence) => call('answerFailed', token, sentence),
  theme: (name, palette) => call('theme', name, JSON.stringify(palette)),
};

function list(text) {
  const value = read(text);
  return Array.isArray(value) ? value : [];
}
