// The page's own elements: found by what they are, and made. What is not there, or is of another kind than the module
// counts on, is said at once and by name.

/**
 * The element with an id; of a class, if one is named.
 * @template {Element} [T=HTMLElement]
 * @param {string} id
 * @param {new () => T} [kind]
 * @returns {T}
 */
export function byId(id, kind) {
  return held(document.getElementById(id), `#${id}`, kind);
}

/**
 * The first element in a place that a selector names; of a class, if one is named.
 * @template {Element} [T=HTMLElement]
 * @param {ParentNode} place
 * @param {string} selector
 * @param {new () => T} [kind]
 * @returns {T}
 */
export function find(place, selector, kind) {
  return held(place.querySelector(selector), selector, kind);
}

/**
 * All of them.
 * @template {Element} [T=HTMLElement]
 * @param {ParentNode} place
 * @param {string} selector
 * @param {new () => T} [kind]
 * @returns {T[]}
 */
export function every(place, selector, kind) {
  return [...place.querySelectorAll(selector)].map((element) => held(element, selector, kind));
}

/**
 * @template {Element} T
 * @param {Element | null} element
 * @param {string} name
 * @param {new () => T} [kind]
 * @returns {T}
 */
function held(element, name, kind) {
  if (!element || (kind && !(element instanceof kind))) {
    throw new Error(`The page has no ${kind?.name ?? 'element'} ${name}.`);
  }

  return /** @type {T} */ (element);
}

/**
 * What an event fell on or in, by a selector; null when it is none such.
 * @param {Event} event
 * @param {string} selector
 * @returns {HTMLElement | null}
 */
export function within(event, selector) {
  return event.target instanceof Element ? event.target.closest(selector) : null;
}

/**
 * The value of the control that an event is about.
 * @param {Event} event
 */
export function valueOf({target}) {
  if (target instanceof HTMLInputElement || target instanceof HTMLSelectElement) return target.value;
  return '';
}

/**
 * Has this done whenever a button is pressed.
 * @param {string} id
 * @param {(event: MouseEvent) => void} run
 */
export function pressed(id, run) {
  byId(id).addEventListener('click', run);
}

/**
 * A new element, with a class and a text where they are given.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @returns {HTMLElementTagNameMap[K]}
 */
export function make(tag, className = '', text = '') {
  const it = document.createElement(tag);
  if (className) it.className = className;
  if (text) it.textContent = text;
  return it;
}

/**
 * A new button that runs something.
 * @param {string} className
 * @param {string} text
 * @param {() => void} run
 */
export function button(className, text, run) {
  const it = make('button', className, text);
  it.type = 'button';
  it.addEventListener('click', run);
  return it;
}

const NS = 'http://www.w3.org/2000/svg';

/**
 * A new element of a drawing.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Record<string, string | number>} [attributes]
 * @returns {SVGElementTagNameMap[K]}
 */
export function shape(tag, attributes = {}) {
  const it = document.createElementNS(NS, tag);
  for (const [name, value] of Object.entries(attributes)) it.setAttribute(name, String(value));
  return it;
}

/**
 * The sentence of what was thrown.
 * @param {unknown} error
 */
export function sentenceOf(error) {
  return error instanceof Error ? error.message : String(error);
}

// Shows a caution, or takes it away where there is none.
/** @param {HTMLElement} element @param {string} text */
export function caution(element, text) {
  element.hidden = !text;
  if (element.textContent !== text) element.textContent = text;
}
