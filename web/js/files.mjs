// Files and links: open, save, download, copy the link, drop a file on the page.

import {alive, editor} from './bridge.mjs';
import {byId, pressed, sentenceOf} from './dom.mjs';
import {stored} from './last.mjs';
import {alarm, note} from './notices.mjs';
import {openShelfFile} from './shelf.mjs';
import {isShelf} from './shelffile.mjs';

const LIMIT = 128 << 20; // bytes, as the engine's: the page must not fill the memory to find out
const DRAFT = 64 << 20; // bytes of a draft, as its reader's

/** @type {(file: File) => void} */
let bringIn = () => {};
let closing = 0;

/** @param {(file: File) => void} run */
export function bindFiles(run) {
  bringIn = run;
  const chooser = byId('open-file', HTMLInputElement);
  pressed('open', () => chooser.click());
  chooser.addEventListener('change', () => {
    const file = chooser.files?.[0];
    if (file) take(file);
    chooser.value = '';
  });
  pressed('save', save);
  pressed('copy-link', copyLink);
  bindDrop();
  addEventListener('hashchange', openAddress);
}

// Opens the file choosing window.
export function openFile() {
  byId('open-file').click();
}

// The sentence for a file that is not read because it is too long; '' for one that may be.
/** @param {File} file */
export function tooLarge(file, limit = LIMIT) {
  if (file.size <= limit) return '';
  return `${file.name} is ${Math.round(file.size / (1 << 20))} MB; the most that can be read is ${limit >> 20} MB.`;
}

// A draft is opened, anything else goes to the dialog that traces.
/** @param {File} file */
export async function take(file) {
  if (!alive()) return alarm('Nothing can be opened while the editor is not running.');
  const draft = /\.json$/i.test(file.name) || file.type === 'application/json';
  const large = tooLarge(file, draft && !/shelf\.json$/i.test(file.name) ? DRAFT : LIMIT);
  if (large) return alarm(large);
  if (!draft) return bringIn(file);
  let text;
  try {
    text = await file.text();
  } catch (error) {
    return alarm(`${file.name} could not be read: ${sentenceOf(error)}.`);
  }
  if (isShelf(text)) return openShelfFile(text);
  const sentence = editor.open(text);
  if (sentence) alarm(`${file.name}: ${sentence}`);
  else note(`${file.name} is open. Undo brings back what was open before.`);
}

// Gives the draft to the person as a file; without an editor, the draft this browser kept.
export function save() {
  const text = alive() ? editor.save() : stored();
  if (!text) return alarm('There is no draft to save.');
  download(new Blob([text], {type: 'application/json'}), `${editor.filename()}.openwork.json`);
}

/** @param {Blob} blob @param {string} name */
export function download(blob, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000); // some browsers read it late
}

async function copyLink() {
  const {fragment, error} = editor.link();
  if (!fragment) return alarm(error ?? 'The editor has stopped, so there is no link to copy.');
  const address = location.href.split('#')[0] + fragment;
  try {
    await navigator.clipboard.writeText(address);
    const length = address.length.toLocaleString('en-GB');
    note(`Link copied, ${length} characters. The whole draft is in it; nothing is kept anywhere else.`);
  } catch {
    const text = byId('link-text', HTMLTextAreaElement);
    text.value = address;
    byId('link', HTMLDialogElement).showModal();
    text.select();
  }
}

// Opens the link in the page's address, if there is one, and takes it out of the address so that a reload keeps what
// the person does next.
export function openAddress() {
  const fragment = location.hash;
  if (fragment.length < 2 || document.getElementById(fragment.slice(1))) return;
  history.replaceState(null, '', location.pathname + location.search);
  const sentence = editor.openLink(fragment);
  if (sentence) return alarm(sentence);
  note('The link’s draft is open. Undo brings back what was open before.');
}

function bindDrop() {
  const veil = byId('dropping');
  /** @param {DragEvent} event */
  const files = ({dataTransfer}) => (dataTransfer?.types.includes('Files') ? dataTransfer : null);
  addEventListener('dragenter', (event) => {
    if (files(event)) veil.hidden = false;
  });
  addEventListener('dragover', (event) => {
    const held = files(event);
    if (!held) return;
    event.preventDefault();
    held.dropEffect = 'copy';
    veil.hidden = false;
    clearTimeout(closing);
    // dragover comes several times a second while a file hangs above.
    closing = setTimeout(() => { veil.hidden = true; }, 400);
  });
  addEventListener('drop', (event) => {
    veil.hidden = true;
    clearTimeout(closing);
    const held = files(event);
    if (!held) return;
    event.preventDefault();
    const list = [...held.files];
    if (list.length > 1) note(`One at a time: ${list[0].name} was taken.`);
    if (list.length) take(list[0]);
  });
}
