// The step Paint: what has which swatch, the brush that colours copies by hand, and how the panel is looked at.
// Swatches themselves are in swatches.mjs, colourings by symmetry in colourings.mjs, paste in paste.mjs.

import {editor} from './bridge.mjs';
import {byId, every, find, make, pressed, valueOf} from './dom.mjs';
import {NumberField} from './fields.mjs';
import {tell} from './notices.mjs';
import {bindSwatches, renderSwatches} from './swatches.mjs';
import {renderTubes} from './tubes.mjs';

const has = byId('has');
const ground = byId('ground', HTMLSelectElement);
const brushes = byId('brushes');
const look = byId('look', HTMLSelectElement);
const notes = byId('paint-notes');
const body = byId('step-paint');

/** @type {View | undefined} */
let view;
let drawn = '';
/** @type {NumberField[]} */
let block = [];

export function bindPaint() {
  bindSwatches();
  ground.addEventListener('change', () => tell(editor.command('ground', {id: ground.value})));
  has.addEventListener('change', ({target}) => {
    if (!(target instanceof HTMLSelectElement) || target === ground) return;
    const {motif, slot} = target.dataset;
    if (slot) tell(editor.command('slot', {text: target.value, values: {index: Number(slot)}}));
    else if (motif) tell(editor.command('colour', {id: motif, text: target.value}));
  });
  brushes.addEventListener('change', (event) => take(valueOf(event)));
  look.addEventListener('change', () => tell(editor.seeAs(look.value)));
  pressed('handless', () => tell(editor.command('handless')));
  block = ['m', 'n'].map((side) => new NumberField(byId(`block-${side}`, HTMLInputElement), 'count', (value) => {
    const [m, n] = view?.paint.byHand.cells ?? [1, 1];
    return editor.command('block', {values: {m, n, [side]: Math.round(value)}});
  }));
  // The brush is in hand only while the step is.
  new MutationObserver(() => {
    if (body.hidden && view?.paint.byHand.on) editor.brush(false);
  }).observe(body, {attributeFilter: ['hidden']});
}

// Takes a swatch up by its id; 'off' lays the brush down, '' takes colours by hand away.
/** @param {string} swatch */
function take(swatch) {
  editor.brush(swatch !== 'off', swatch === 'off' ? '' : swatch);
}

/** @param {View} next */
export function renderPaint(next) {
  view = next;
  const {paint, motifs} = view;
  renderSwatches(paint.swatches);
  renderTubes(paint.swatches);
  const {byHand} = paint;
  byHand.cells.forEach((cells, i) => block[i]?.show(cells, next.units));
  const counted = find(byId('by-hand'), '.counted');
  counted.hidden = !byHand.copies;
  byId('handless').textContent = byHand.copies === 1 ? 'Take 1 away' : `Take ${byHand.copies} away`;
  if (look.value !== paint.look) look.value = paint.look;
  const root = document.documentElement;
  root.toggleAttribute('data-coloured', paint.colours.length > 0);
  const base = paint.swatches.find(({id}) => id === paint.ground)?.colour;
  if (base) root.style.setProperty('--ground', base);
  else root.style.removeProperty('--ground');
  const key = JSON.stringify([paint, motifs.map(({id, name}) => [id, name])]);
  if (key === drawn) return;
  drawn = key;
  renderHas(paint, motifs);
  renderBrushes(paint);
  notes.replaceChildren(...paint.notes.map((text) => make('li', '', text)));
}

/** @param {PaintView} paint @param {MotifView[]} motifs */
function renderHas(paint, motifs) {
  choose(ground, paint.swatches, paint.ground, 'none named');
  const focus = document.activeElement instanceof HTMLSelectElement && document.activeElement.dataset.key;
  for (const old of every(has, '.field:not(:has(#ground))')) old.remove();
  const {moved} = paint;
  for (const {id, name} of motifs) {
    has.append(chooser(moved ? `${name} begins with` : name, paint.swatches, paint.of[id] ?? '', {motif: id}));
  }
  for (let i = 0; i < moved; i++) {
    has.append(chooser(`colour ${i + 1} of ${moved}`, paint.swatches, paint.colours[i] ?? '', {slot: String(i)}));
  }
  if (focus) every(has, `[data-key="${CSS.escape(focus)}"]`)[0]?.focus();
}

/**
 * @param {string} words
 * @param {SwatchView[]} swatches
 * @param {string} now
 * @param {{motif?: string, slot?: string}} of
 */
function chooser(words, swatches, now, of) {
  const label = make('label', 'field');
  const select = make('select');
  Object.assign(select.dataset, of, {key: JSON.stringify(of)});
  choose(select, swatches, now, now ? '' : 'none yet');
  select.disabled = !swatches.length;
  label.append(make('span', '', words), select);
  return label;
}

// Fills a select with the swatches; none is what stands for no swatch, if that may be chosen or is so now.
/** @param {HTMLSelectElement} select @param {SwatchView[]} swatches @param {string} now @param {string} none */
function choose(select, swatches, now, none) {
  const options = swatches.map(({id, name}) => new Option(name, id, id === now, id === now));
  if (none) options.unshift(new Option(none, '', now === '', now === ''));
  select.replaceChildren(...options);
}

/** @param {PaintView} paint */
function renderBrushes({swatches, byHand}) {
  byId('by-hand').hidden = !swatches.length;
  const focus = document.activeElement instanceof HTMLInputElement && brushes.contains(document.activeElement)
    ? document.activeElement.value : null;
  const now = byHand.on ? byHand.swatch : 'off';
  brushes.replaceChildren(
    brush('off', 'Moves copies', now, null),
    ...swatches.map(({id, name, colour}) => brush(id, name, now, colour)),
    brush('', 'Wipes', now, ''),
  );
  if (focus !== null) every(brushes, `input[value="${CSS.escape(focus)}"]`)[0]?.focus();
}

/** @param {string} value @param {string} name @param {string} now @param {string | null} colour */
function brush(value, name, now, colour) {
  const label = make('label', 'brush');
  const radio = make('input');
  Object.assign(radio, {type: 'radio', name: 'brush', value, checked: value === now});
  label.append(radio);
  if (colour !== null) {
    const patch = make('span', colour ? 'patch' : 'patch none');
    if (colour) patch.style.background = colour;
    label.append(patch);
  }
  label.append(make('span', '', name));
  return label;
}
