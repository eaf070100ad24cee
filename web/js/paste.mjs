// Paste by colour, reckoned by the engine while the step Paint is open.

import {editor} from './bridge.mjs';
import {byId, make, sentenceOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Stopped, Superseded} from './engine.mjs';
import {say} from './notices.mjs';
import {INCH, OUNCE, measure, plain} from './units.mjs';
import {wishes} from './wishes.mjs';

const PAUSE = 300; // ms that the draft must rest
const POUND_OUNCE = 28.349523125; // g in an avoirdupois ounce, exactly

const body = byId('step-paint');
const place = byId('paste');

/** @type {Lane | null} */
let lane = null;
/** @type {View | undefined} */
let view;
/** @type {PaintAnswer | null} */
let answer = null;
let asked = '';
let shown = '';
let timer = 0;

/** @param {Lane} works */
export function bindPaste(works) {
  lane = works;
  new MutationObserver(soon).observe(body, {attributeFilter: ['hidden']});
  body.addEventListener('change', soon);
}

/** @param {View} next */
export function renderPaste(next) {
  view = next;
  say(byId('paste-thick'), `Laid as thick as the sheet, ${measure(view.sheet.thickness, view.units, 'fine')}. `
    + 'The figures here are common practice; your paste’s maker states its own.');
  if (answer) show();
  if (!view.inHand) soon();
}

function soon() {
  clearTimeout(timer);
  if (!body.hidden && lane) timer = setTimeout(reckon, PAUSE);
}

async function reckon() {
  if (!lane || !view || body.hidden) return;
  const {panels} = wishes('paint');
  const draft = editor.save(), many = typeof panels === 'number' ? panels : 1;
  const key = JSON.stringify([draft, many]);
  if (key === asked) return;
  asked = key;
  try {
    ({value: answer} = await lane.ask('paint', {draft, panels: many}, {instead: true}));
    shown = '';
    show();
  } catch (error) {
    if (error instanceof Superseded || error instanceof Stopped) return;
    answer = null;
    asked = '';
    place.replaceChildren(make('p', '', sentenceOf(error)));
  }
}

function show() {
  if (!answer || !view) return;
  const {units, paint} = view;
  const key = JSON.stringify([answer, units, paint.swatches]);
  if (key === shown) return;
  shown = key;
  if (!answer.swatches.length) {
    place.replaceChildren(make('p', '', 'There are no openings to fill yet.'));
    return;
  }
  const {panels} = answer;
  const table = make('table');
  const many = panels === 1 ? 'one panel' : `${panels} panels`;
  table.append(make('caption', '', `Paste for ${many}, waste among it`));
  const head = make('tr'), inches = units === 'in';
  for (const word of ['colour', 'openings', inches ? 'area, in²' : 'area, cm²', inches ? 'wet, fl oz' : 'wet, ml',
    inches ? 'oz' : 'g', 'tubs']) {
    const cell = make('th', '', word);
    cell.scope = 'col';
    head.append(cell);
  }
  const top = make('thead');
  top.append(head);
  const rows = make('tbody');
  rows.append(...answer.swatches.map((row) => rowOf(row, paint, inches)));
  table.append(top, rows);
  place.replaceChildren(table);
}

/** @param {PasteRow} row @param {PaintView} paint @param {boolean} inches */
function rowOf(row, paint, inches) {
  const line = make('tr');
  const swatch = paint.swatches.find(({id}) => id === row.swatch);
  const name = make('th');
  name.scope = 'row';
  if (swatch) {
    const patch = make('span', 'patch');
    patch.style.background = swatch.colour;
    name.append(patch);
  }
  name.append(swatch?.name ?? 'one colour');
  const {wet, grams, tubs} = row.all;
  line.append(name, ...[
    String(row.openings), plain(row.area / (inches ? INCH ** 2 : 100), 1), plain(wet / (inches ? OUNCE : 1), 1),
    plain(grams / (inches ? POUND_OUNCE : 1), inches ? 1 : 0), String(tubs),
  ].map((text) => make('td', '', text)));
  return line;
}
