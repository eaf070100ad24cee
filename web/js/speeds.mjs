// The table of speeds, by stock and thickness, that the job sheet's times are made from: usual rows until the person
// changes one. Of a stock that has a changed row all rows are kept as the shop's own, with the other wishes.

import {byId, make, pressed, sentenceOf} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {NumberField} from './fields.mjs';
import {keep, keptSpeeds, SPEEDS, watch} from './wishes.mjs';

const unfold = byId('rates', HTMLDetailsElement);
const place = byId('speeds-rows');
const said = byId('speeds-said');
const more = byId('speeds-more', HTMLButtonElement);
const before = byId('speeds-before', HTMLButtonElement);

/** @type {Lane} */
let lane;
/** @type {SpeedRow[]} */
let usual = [];
/** @type {View | null} */
let view = null;
let shown = ''; // what the table was made from

/** @param {Lane} engineLane */
export function bindSpeeds(engineLane) {
  lane = engineLane;
  unfold.addEventListener('toggle', load);
  watch(SPEEDS, () => show(true));
  pressed('speeds-more', add);
  pressed('speeds-before', () => {
    keep(SPEEDS, null);
    show(true);
  });
}

/** @param {View} next */
export function renderSpeeds(next) {
  view = next;
  show(false);
}

async function load() {
  if (!unfold.open) return;
  try {
    if (!usual.length) usual = (await lane.ask('speeds', {})).value;
    said.textContent = '';
    show(false);
  } catch (error) {
    said.textContent = sentenceOf(error);
  }
}

const way = () => view?.sheet.cut || 'laser';

/** @param {SpeedRow} row @param {string} how @param {string} stock */
const isOf = (row, how, stock) => (row.how || 'laser') === how && row.stock === stock;

// The rows of a stock that hold: the shop's own, else the usual ones.
/** @param {string} stock */
function rowsOf(stock) {
  const own = keptSpeeds().filter((row) => isOf(row, way(), stock));
  return own.length ? own : usual.filter((row) => isOf(row, way(), stock));
}

// The stocks of the way of cutting in hand, by their words, the one in hand first.
function stocks() {
  const all = [...new Set([...keptSpeeds(), ...usual].filter((row) => (row.how || 'laser') === way())
    .map(({stock}) => stock))];
  const mine = all.find((words) => words && fits(words, view?.sheet.stock ?? '')) ?? '';
  return [mine, ...all.filter((words) => words !== mine)];
}

// Whether a stock's name has one of the words, short ones only where a word of it begins (machine.SpeedOf).
/** @param {string} words @param {string} name */
function fits(words, name) {
  const plain = (/** @type {string} */ text) => text.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '').trim();
  return words.split(',').map(plain).some((word) => word
    && ` ${plain(name)}`.includes(word.length <= 4 ? ` ${word}` : word));
}

// Keeps the rows of a stock; those that are the usual ones are not kept.
/** @param {string} stock @param {SpeedRow[]} rows */
function put(stock, rows) {
  const same = JSON.stringify(rows) === JSON.stringify(usual.filter((row) => isOf(row, way(), stock)));
  const all = [...keptSpeeds().filter((row) => !isOf(row, way(), stock)), ...(same ? [] : rows)];
  keep(SPEEDS, all.length ? all : null);
  before.disabled = !all.length;
}

function add() {
  if (!view) return;
  const [stock = ''] = stocks(), rows = rowsOf(stock), {thickness} = view.sheet;
  const near = rows.filter((row) => row.thickness <= thickness).at(-1) ?? rows[0];
  if (!near) return;
  put(stock, [...rows, {...near, thickness}].sort((a, b) => a.thickness - b.thickness));
  show(true);
}

/** @param {boolean} anew */
function show(anew) {
  if (!view || !unfold.open || !usual.length) return;
  const {units, sheet: {stock, thickness}} = view;
  const key = JSON.stringify([units, stock, thickness, way()]);
  if (key === shown && !anew) return;
  shown = key;
  const body = make('tbody');
  const [mine = '', ...others] = stocks();
  for (const words of [mine, ...others]) {
    rowsOf(words).forEach((row, at) => body.append(line(words, row, at, words === mine)));
  }
  const table = make('table'), head = make('tr'), top = make('thead');
  table.append(make('caption', '', `Speeds by stock, cut by ${way()}; ${stock || 'the stock in hand'} first`));
  for (const word of ['stock', 'thickness', 'speed']) {
    const cell = make('th', '', word);
    cell.scope = 'col';
    head.append(cell);
  }
  top.append(head);
  table.append(top, body);
  place.replaceChildren(table);
  more.disabled = rowsOf(mine).some((row) => row.thickness === thickness);
  before.disabled = !keptSpeeds().length;
}

/** @param {string} stock @param {SpeedRow} row @param {number} at @param {boolean} inHand */
function line(stock, row, at, inHand) {
  const out = make('tr', inHand ? 'in-hand' : '');
  const name = make('th', '', stock.split(',')[0] || 'other stock');
  name.scope = 'row';
  name.title = stock;
  out.append(name);
  number(out, `thickness of ${name.textContent}, row ${at + 1}`, 'fine', '', row.thickness, 0.001, 1000,
    (thickness) => change(stock, at, {thickness}));
  number(out, `speed of ${name.textContent}, row ${at + 1}`, 'plain', 'mm/s', row.speed, 0.01, 1e5,
    (speed) => change(stock, at, {speed}));
  return out;
}

/** @param {string} stock @param {number} at @param {Partial<SpeedRow>} to */
function change(stock, at, to) {
  put(stock, rowsOf(stock).map((row, k) => (k === at ? {...row, ...to} : row)));
}

/**
 * @param {HTMLElement} row @param {string} label @param {'fine' | 'plain'} kind @param {string} after
 * @param {number} value @param {number} least @param {number} most @param {(value: number) => void} send
 */
function number(row, label, kind, after, value, least, most, send) {
  const cell = make('td'), input = make('input');
  input.setAttribute('aria-label', label);
  cell.append(input);
  row.append(cell);
  new NumberField(input, kind, (typed) => {
    if (!(typed >= least && typed <= most)) return `It may be from ${least} to ${most}${kind === 'fine' ? ' mm' : ''}.`;
    send(typed);
    return '';
  }, after).show(value, view?.units ?? 'mm');
}
