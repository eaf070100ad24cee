// The first picture can be dragged before the editor is there: it is the demonstration, copy by copy, as the editor
// will draw it. What the hand does is shown on the picture, and done over again by the editor as soon as it has drawn
// its first frame; a hand that is still down then goes on in the editor.

/** @import {Stage} from './stage.mjs' */

const DRAG_FROM = 3; // CSS px: a press that trembles by less is no drag, as in the editor

/** @typedef {{down: PointerEvent, last: PointerEvent, up: boolean}} Drag */

const host = document.getElementById('bench');
const picture = host?.querySelector('#first svg');
/** @type {Drag | null} */
let drag = null;
/** @type {SVGUseElement | null} */
let copy = null; // under the hand

/** @param {PointerEvent} event */
function down(event) {
  event.stopImmediatePropagation(); // the editor hears it when it is handed over
  if (drag || event.button !== 0 || event.altKey || event.shiftKey || event.ctrlKey) return;
  copy = under(event.clientX, event.clientY);
  if (!copy) return;
  event.preventDefault();
  try {
    host?.setPointerCapture(event.pointerId);
  } catch { /* the pointer has gone already */ }
  drag = {down: event, last: event, up: false};
}

/** @param {PointerEvent} event */
function move(event) {
  event.stopImmediatePropagation();
  if (!drag || drag.up || event.pointerId !== drag.down.pointerId) return;
  drag.last = event;
  show(drag);
}

/** @param {PointerEvent} event */
function up(event) {
  event.stopImmediatePropagation();
  if (!drag || event.pointerId !== drag.down.pointerId) return;
  if (event.type === 'pointercancel') { // as if it had not been: the copies stand where they stood
    show({...drag, last: drag.down});
    drag = copy = null;
    return;
  }
  drag.last = event;
  drag.up = true;
}

// The topmost copy at a place of the window.
/** @param {number} x @param {number} y */
function under(x, y) {
  const uses = [...picture?.querySelectorAll('use') ?? []].reverse();
  return uses.find((use) => {
    const shape = document.querySelector(use.getAttribute('href') ?? '');
    const into = use.getScreenCTM()?.inverse();
    return into && shape instanceof SVGGeometryElement && shape.isPointInFill(new DOMPoint(x, y).matrixTransform(into));
  }) ?? null;
}

// Moves the copies of the motif in hand, each by what its operation makes of the way that the hand went.
/** @param {Drag} drag */
function show({down, last}) {
  if (!copy) return;
  let [x, y] = [last.clientX - down.clientX, last.clientY - down.clientY];
  if (Math.hypot(x, y) <= DRAG_FROM) x = y = 0;
  const into = copy.getScreenCTM()?.inverse();
  if (!into) return;
  // The way in the silhouette's own frame, where it is the same for all copies of the motif.
  const [u, v] = [into.a * x + into.c * y, into.b * x + into.d * y];
  for (const use of picture?.querySelectorAll(`use[href="${copy.getAttribute('href')}"]`) ?? []) {
    if (!(use instanceof SVGUseElement)) continue;
    const to = use.transform.baseVal.getItem(0).matrix;
    use.style.translate = `${to.a * u + to.c * v}px ${to.b * u + to.d * v}px`;
  }
}

const HEARD = /** @type {const} */ ([['pointerdown', down], ['pointermove', move], ['pointerup', up],
  ['pointercancel', up]]);

if (host && picture && document.documentElement.dataset.opens === 'demonstration') {
  for (const [kind, hear] of HEARD) host.addEventListener(kind, hear, {capture: true});
  performance.mark('openwork:draggable');
}

// Hands over to the editor, once its first frame is drawn: what the hand has done so far is done by it.
/** @param {Stage} stage */
export function handOver(stage) {
  for (const [kind, hear] of HEARD) host?.removeEventListener(kind, hear, {capture: true});
  if (drag) stage.resume(drag.down, drag.last, drag.up);
  drag = copy = null;
}
