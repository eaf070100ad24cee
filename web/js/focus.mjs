// Where the focus goes when what had it is gone: a press may take its own control away, hide it or switch it off, and
// the browser then leaves the person at the head of the page. Here it goes on to the next place: what stands there now,
// else the control after it, in the smallest part of the page that is still there. Who made something may give the
// focus to it before that.

import {byId, every, find} from './dom.mjs';
import {drawUpTicket} from './ticket.mjs';

const CONTROLS = 'button, input, select, textarea, summary, a[href], [tabindex="0"]';

/**
 * Where a control stood: in each part of the page around it, from the smallest, which of its controls it was.
 * @typedef {{element: HTMLElement, key: string, within: [Element, number][], outer: Trail | null}} Trail
 */

/** @type {Trail | null} */
let last = null;
/** @type {{from: HTMLElement, to: HTMLElement} | null} */
let lent = null; // a control is switched off while it works: the focus goes back when it is done
let due = false;
let pressing = false; // a pointer is down: what it does comes first

export function bindFocus() {
  document.addEventListener('focusin', ({target}) => {
    if (target instanceof HTMLElement && target !== document.body) last = trailOf(target);
  });
  addEventListener('keydown', () => (lent = null), {capture: true});
  addEventListener('pointerdown', () => {
    pressing = true;
    lent = null;
  }, {capture: true});
  for (const kind of ['pointerup', 'pointercancel']) {
    addEventListener(kind, () => {
      pressing = false;
      look();
    }, {capture: true});
  }
  new MutationObserver(look).observe(document.body,
    {subtree: true, childList: true, attributeFilter: ['hidden', 'disabled', 'open', 'class']});
}

// The links that a keyboard reaches first, past the head.
export function bindSkips() {
  for (const skip of every(document, '.skip', HTMLAnchorElement)) {
    skip.addEventListener('click', (event) => {
      event.preventDefault();
      if (skip.hash === '#ticket') drawUpTicket(true);
      find(document, skip.hash).focus();
    });
  }
}

/** @param {HTMLElement} element @returns {Trail} */
function trailOf(element) {
  /** @type {Element[]} */
  const parts = [];
  for (let part = element.parentElement; part && !tooLarge(part); part = part.parentElement) parts.push(part);
  const controls = [...parts.at(-1)?.querySelectorAll(CONTROLS) ?? []], at = controls.indexOf(element);
  let first = Math.max(0, at); // of a part's controls
  const within = parts.map((part) => {
    while (first > 0 && part.contains(controls[first - 1])) first--;
    return /** @type {[Element, number]} */ ([part, at - first]);
  });
  const dialog = element.closest('dialog');
  const before = last && dialog && !dialog.contains(last.element) ? last : last?.outer ?? null;
  return {element, key: nameOf(element), within, outer: dialog ? before : null};
}

// Whether a part is too large for the next place to be looked for in it.
/** @param {Element} part */
function tooLarge(part) {
  return part === document.body || part.localName === 'main';
}

// What a control is known by when its part of the page is made anew.
/** @param {Element} element */
function nameOf(element) {
  if (!(element instanceof HTMLElement)) return '';
  return element.id || element.dataset.key || element.getAttribute('aria-label') || element.textContent || '';
}

// Looks, once the browser has drawn what was changed, whether the focus was lost.
function look() {
  if (due || !last) return;
  due = true;
  requestAnimationFrame(() => setTimeout(() => {
    due = false;
    const active = document.activeElement;
    if (lent && active === lent.to && able(lent.from)) return lent.from.focus();
    const lost = !active || active === document.body || active === document.documentElement || !able(active);
    if (!lost || !last || pressing || able(last.element)) return;
    const from = last.element, to = next(last);
    to.focus();
    lent = {from, to};
  }, 0));
}

/** @param {Element} element */
function able(element) {
  return element.isConnected && element.checkVisibility({visibilityProperty: true}) && !element.matches(':disabled')
    && !element.closest('[inert]');
}

// The next place after a control that is gone.
/** @param {Trail} trail @returns {HTMLElement} */
function next({key, within, outer}) {
  for (const [part, at] of within) {
    if (!part.isConnected || !part.checkVisibility()) continue;
    const controls = [...part.querySelectorAll(CONTROLS)];
    const again = controls.find((each) => key && nameOf(each) === key && able(each));
    const near = again ?? controls.slice(at).find(able) ?? controls.slice(0, at).reverse().find(able);
    if (near instanceof HTMLElement) return near;
  }
  if (outer) return able(outer.element) ? outer.element : next(outer);
  return byId('bench');
}
