// The shelf: the last drafts of this browser, each with its history, to be opened again, thrown away, and saved or
// taken in all together.

import {editor} from './bridge.mjs';
import {button, byId, find, make, pressed, sentenceOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {draftFrom, textOf} from './last.mjs';
import {ask, note, say} from './notices.mjs';
/** @import {Entry} from './records.mjs' */
import {entries, entryOf, keepPicture, pictureOf, remove, textsOf} from './records.mjs';
import {isShelf, shelfFile, takeShelf} from './shelffile.mjs';
import {kept, MOST, openFound, openId} from './store.mjs';
import {onShelf, shelfChanged, taken} from './tabs.mjs';
import {write} from './units.mjs';

const PICTURE = 320; // px, of a picture's width
const WAIT = 500; // ms that another tab may need to let go of a draft

const dialog = byId('shelf', HTMLDialogElement);
const list = byId('shelf-list');
const said = byId('shelf-said');
const lasts = byId('shelf-lasts');

/** @type {Lane | null} */
let lane = null;
/** @type {string[]} */
let addresses = []; // of the pictures shown
let serial = 0; // of what is shown
/** @type {(blob: Blob, name: string) => void} */
let download = () => {};

/** @param {(blob: Blob, name: string) => void} save */
export function bindShelf(save) {
  download = save;
  pressed('shelf-open', showShelf);
  pressed('shelf-save', saveShelf);
  pressed('shelf-persist', persist);
  const file = byId('shelf-file', HTMLInputElement);
  pressed('shelf-take', () => file.click());
  file.addEventListener('change', async () => {
    const chosen = file.files?.[0];
    file.value = '';
    if (chosen) await takeIn(await chosen.text());
  });
  dialog.addEventListener('close', () => {
    serial++;
    for (const address of addresses) URL.revokeObjectURL(address);
    addresses = [];
  });
  onShelf(() => { if (dialog.open) show(); });
}

// The engine that draws the pictures, once there is one.
/** @param {Lane} engineLane */
export function pictureShelf(engineLane) {
  lane = engineLane;
}

export async function showShelf() {
  say(said, '');
  dialog.showModal();
  await kept();
  await show();
}

async function show() {
  const mine = ++serial;
  try {
    const [all, open] = await Promise.all([entries(), taken()]);
    if (mine !== serial) return;
    const focused = list.contains(document.activeElement) ? document.activeElement?.getAttribute('aria-label') : null;
    list.replaceChildren(...all.map((entry) => row(entry, open.has(entry.id))));
    if (focused) find(list, `[aria-label="${CSS.escape(focused)}"], button`, HTMLElement).focus();
    const full = all.length < MOST ? '' : ' The oldest leaves when one more comes.';
    const none = 'Nothing is on the shelf yet: a draft comes here with its first change.';
    say(byId('shelf-count'), all.length ? `${all.length} of ${MOST} drafts.${full}` : none);
    await sayLasts();
    for (const entry of all) await picture(entry, mine);
  } catch (error) {
    say(said, `The shelf cannot be read: ${sentenceOf(error)}`);
  }
}

/** @param {Entry} entry @param {boolean} open in some tab */
function row(entry, open) {
  const {id, title, when, width, height, rows, unread} = entry;
  const name = title || 'Untitled', units = editor.view()?.units ?? 'mm';
  const item = make('li', 'shelf-row');
  item.dataset.id = id;
  const frame = make('span', 'shelf-picture');
  const text = make('div', 'shelf-words');
  /** @param {number} mm */
  const size = (mm) => write(mm, 'length', units);
  const weight = Math.max(1, Math.round(rows.reduce((sum, each) => sum + each.size, 0) / 1000));
  const steps = rows.length === 1 ? '1 step' : `${rows.length} steps`;
  text.append(make('h3', '', name), make('p', '', new Date(when).toLocaleString('en-GB',
    {dateStyle: 'medium', timeStyle: 'short'})));
  text.append(make('p', 'hint', unread ? 'It could not be opened.'
    : `${size(width)} × ${size(height)} ${units} · ${steps}, ${weight} kB`));
  const here = id === openId();
  if (open) text.append(make('p', 'shelf-state', here ? 'On the bench' : 'Open in another tab'));
  const buttons = make('div', 'shelf-buttons');
  const word = open && !here ? 'Open a copy' : 'Open';
  const first = unread ? button('plain edged', 'Save as a file', () => rescue(id))
    : button('plain edged', word, () => openEntry(id));
  const away = button('plain', 'Throw away', () => throwAway(entry));
  first.disabled = here;
  away.disabled = open;
  first.setAttribute('aria-label', `${first.textContent}: ${name}`);
  away.setAttribute('aria-label', `Throw away: ${name}`);
  buttons.append(first, away);
  item.append(frame, text, buttons);
  return item;
}

// Shows a draft's picture, drawn by the engine if the one that is kept shows another step.
/** @param {Entry} entry @param {number} mine */
async function picture(entry, mine) {
  const {id, now, unread} = entry;
  if (mine !== serial || unread) return;
  let old = await pictureOf(id);
  if (old?.of !== now && lane) {
    try {
      const draft = textOf({entry, texts: await textsOf(entry), copy: false});
      const {bytes} = await lane.ask('picture', {draft, picture: {width: PICTURE, flat: true}});
      old = {of: now, blob: new Blob([bytes], {type: 'image/png'})};
      await keepPicture(id, now, old.blob).catch(() => {}); // it is drawn again next time
    } catch {
      return; // an empty panel, or one that cannot be laid out
    }
  }
  if (mine !== serial || !old) return;
  const image = make('img');
  image.alt = '';
  image.src = URL.createObjectURL(old.blob);
  addresses.push(image.src);
  find(list, `[data-id="${id}"] .shelf-picture`).replaceChildren(image);
}

/** @param {string} id */
async function openEntry(id) {
  try {
    if (!await kept()) {
      return say(said,
        'What is on the bench cannot be kept, and would be lost. Save it as a file first, or make room here.');
    }
    const entry = await entryOf(id);
    if (!entry) return show(); // thrown away in another tab
    const it = await draftFrom(entry, WAIT);
    const sentence = openFound(it);
    if (sentence) return say(said, sentence);
    dialog.close();
    byId('bench').focus({preventScroll: true});
    globalThis.openworkWake();
    note(it.copy ? COPIED : `${entry.title || 'The draft'} is open, with its history.`);
  } catch (error) {
    say(said, `It cannot be opened: ${sentenceOf(error)}`);
  }
}

export const COPIED = 'This draft is open in another tab. Here is a copy of its own: what you change here stays here, '
  + 'and has its own place on the shelf.';

/** @param {string} id */
async function rescue(id) {
  const entry = await entryOf(id);
  if (entry) download(new Blob([textOf({entry, texts: await textsOf(entry), copy: false})]), 'put-aside.openwork.json');
}

/** @param {Entry} entry */
async function throwAway({id, title}) {
  const lines = [`${title || 'The draft'} and its history will be gone from this browser. This cannot be undone.`];
  if (!await ask({name: 'Throw it away?', lines, yes: 'Throw away', no: 'Keep it'})) return;
  await remove(id);
  shelfChanged();
  say(said, `${title || 'The draft'} is thrown away.`);
  await show();
  const next = list.querySelector('button:enabled');
  if (!list.contains(document.activeElement)) (next instanceof HTMLElement ? next : byId('shelf-close')).focus();
}

async function saveShelf() {
  await kept();
  download(await shelfFile(), 'shelf.openwork-shelf.json');
}

// Takes a shelf's file in, and says what came of it.
/** @param {string} text */
async function takeIn(text) {
  try {
    if (!isShelf(text)) throw new Error('This is not a shelf’s file; a draft is opened with Open…');
    const {taken: came, there, left} = await takeShelf(text, MOST);
    shelfChanged();
    const parts = [`${count(came)} taken in`];
    if (there) parts.push(`${count(there)} on the shelf already`);
    if (left) parts.push(`${count(left)} left out, because the shelf holds ${MOST}`);
    say(said, `${parts.join(', ')}.`);
  } catch (error) {
    say(said, sentenceOf(error));
  }
  await show();
}

// The same for a file that was dropped or opened: shows the shelf.
/** @param {string} text */
export async function openShelfFile(text) {
  await showShelf();
  await takeIn(text);
}

/** @param {number} n */
function count(n) {
  return n === 1 ? '1 draft' : `${n} drafts`;
}

// Says whether the browser promised to keep the shelf when it is short of room, and offers to ask.
async function sayLasts() {
  const sure = await navigator.storage?.persisted?.();
  byId('shelf-persist').hidden = sure !== false;
  say(lasts, sure ? 'This browser keeps the shelf until you clear it.'
    : 'This browser may clear the shelf when it is short of room.');
}

async function persist() {
  if (!await navigator.storage.persist()) {
    say(said, 'The browser did not agree. Saved as a file, the shelf is safe.');
  }
  await sayLasts();
}
