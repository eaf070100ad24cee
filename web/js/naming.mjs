// A finger or a pen that stays on something reads what a mouse reads by hovering: the words that are a control's title,
// or the name of one that shows only a sign. The press that reads does nothing else.

import {make} from './dom.mjs';

const LONG = 500; // ms
const STRAY = 10; // px that a finger may stray
const STAY = 4000; // ms that the words stay after the finger has gone

const typed = 'input:not([type=radio], [type=checkbox], [type=range]), textarea, select';

/** @type {HTMLElement | null} */
let card = null;
let timer = 0, hiding = 0;
let eaten = false; // the press in hand has been read
let x = 0, y = 0; // where it began

export function bindNaming() {
  /** @type {AddEventListenerOptions} */
  const first = {capture: true, passive: true};
  document.addEventListener('pointerdown', (event) => {
    hide();
    eaten = false;
    clearTimeout(timer);
    if (event.pointerType === 'mouse' || !event.isPrimary) return;
    [x, y] = [event.clientX, event.clientY];
    timer = setTimeout(read, LONG);
  }, first);
  document.addEventListener('pointermove', (event) => {
    if (Math.hypot(event.clientX - x, event.clientY - y) > STRAY) clearTimeout(timer);
  }, first);
  for (const end of ['pointerup', 'pointercancel']) {
    document.addEventListener(end, () => {
      clearTimeout(timer);
      if (eaten) setTimeout(() => { eaten = false; }, LONG); // a press that was cancelled clicks nothing
    }, first);
  }
  document.addEventListener('scroll', () => {
    clearTimeout(timer);
    hide();
  }, first);
  document.addEventListener('contextmenu', (event) => {
    if (eaten) event.preventDefault();
  }, true);
  document.addEventListener('click', (event) => {
    if (!eaten) return;
    eaten = false;
    event.preventDefault();
    event.stopImmediatePropagation();
  }, true);
}

// Reads what lies under the finger.
function read() {
  const at = document.elementFromPoint(x, y);
  const named = at?.closest('[title]') ?? at?.closest('button[aria-label]');
  if (!(named instanceof HTMLElement) || at?.closest(typed)) return;
  const words = named.title || named.getAttribute('aria-label') || '';
  if (!words || words === named.innerText.trim()) return;
  eaten = true;
  show(words, named);
}

/** @param {string} words @param {HTMLElement} named */
function show(words, named) {
  card ??= make('div', 'named');
  card.textContent = words;
  card.setAttribute('aria-hidden', 'true'); // a reader has the title itself
  (named.closest('dialog') ?? document.body).append(card); // a dialog lies over all else
  const of = named.getBoundingClientRect(), own = card.getBoundingClientRect();
  const left = Math.min(Math.max(8, of.left + of.width / 2 - own.width / 2), innerWidth - own.width - 8);
  const above = of.top - own.height - 10;
  card.style.left = `${left}px`;
  card.style.top = `${above > 4 ? above : Math.min(of.bottom + 10, innerHeight - own.height - 4)}px`;
  clearTimeout(hiding);
  hiding = setTimeout(hide, STAY + LONG);
}

function hide() {
  clearTimeout(hiding);
  card?.remove();
}
