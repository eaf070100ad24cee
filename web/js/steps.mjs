// A sheet larger than the bed: a small sheet that is moved over the panel by the repeat, or the whole one in parts; and
// the map of how either is laid.

import {byId, make, shape} from './dom.mjs';
import {download} from './files.mjs';
import {write} from './units.mjs';
import {wishes} from './wishes.mjs';

// What tells the places of each pass apart on the map, and in words.
/** @type {{sign: string, path: (x: number, y: number, r: number) => string}[]} */
const SIGNS = [
  {sign: 'round', path: (x, y, r) => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`},
  {sign: 'square', path: (x, y, r) => `M${x - 0.9 * r} ${y - 0.9 * r}h${1.8 * r}v${1.8 * r}h${-1.8 * r}Z`},
  {
    sign: 'on a corner',
    path: (x, y, r) => `M${x} ${y - 1.2 * r}l${1.2 * r} ${1.2 * r}l${-1.2 * r} ${1.2 * r}l${-1.2 * r} ${-1.2 * r}Z`,
  },
  {sign: 'pointed', path: (x, y, r) => `M${x} ${y - 1.2 * r}l${1.15 * r} ${1.9 * r}h${-2.3 * r}Z`},
];

const map = byId('steps-map', SVGSVGElement);
const list = byId('steps-list');
/** @type {{chosen?: string[], cutFile?: string}} */
let way = {};

/**
 * What asks the engine, for the draft that is cut.
 * @typedef {<V extends Verb>(verb: V, args: EngineRequest) => Promise<Answer<V>>} Ask
 */

// Makes the stepping sheet's cut file and its map. Returns what is said of it.
/** @param {View} view @param {string} name @param {string} format @param {Drawn[]} lettering @param {Ask} ask */
export async function makeSteps(view, name, format, lettering, ask) {
  const sizes = {fewest: {lays: 'fewest'}, most: {most: true}};
  const size = sizes[/** @type {keyof sizes} */ (wishes('steps').size)] ?? {};
  const sheets = {...size, ...platesOf(view), lettering};
  const {value: steps, bytes} = await ask('steps', {format, sheets, paper: paperOf(view)});
  const files = steps.files ?? [{plate: 0, offset: 0, length: steps.mapFrom}];
  way = {chosen: steps.chosen, cutFile: `${name}-stepping${files.length > 1 ? '-1' : ''}.${format}`};
  for (const {plate, offset, length} of files) {
    const blob = new Blob([bytes.slice(offset, offset + length)], {type: steps.type});
    download(blob, `${name}-stepping${plate ? `-${plate}` : ''}.${format}`);
  }
  download(new Blob([bytes.slice(steps.mapFrom)], {type: 'application/pdf'}), `${name}-stepping-map.pdf`);
  /** @param {number} mm */
  const length = (mm) => write(mm, 'length', view.units);
  const corners = steps.places.map((place) => middle(place.at, steps));
  draw(view, [...corners, steps.places[0].at], (at) => {
    const [first] = steps.places;
    map.append(shape('rect', {
      class: 'sheet', x: 0, y: -steps.height, width: steps.width, height: steps.height,
      transform: `translate(${at(first.at).join(' ')}) rotate(${-steps.turn})`,
    }));
    const r = Math.min(...nearest(corners), steps.width, steps.height) * 0.42;
    steps.places.forEach((place, i) => {
      const [x, y] = at(corners[i]);
      const sign = SIGNS[(place.pass - 1) % SIGNS.length];
      map.append(shape('path', {class: 'place', d: sign.path(x, y, r)}), text([x, y], place.number, r));
    });
  });
  say([
    `The sheet is ${length(steps.width)} × ${length(steps.height)} ${view.units} `
      + `and is laid ${steps.places.length} times, in ${count(steps.passes.length, 'pass', 'passes')}; `
      + 'let the paste dry between them.',
    ...steps.passes.map((pass, i) => `Pass ${i + 1} (${SIGNS[i % SIGNS.length].sign} on the map): ${runs(pass)}.`),
    ...masks(steps.places),
    ...key(steps),
    ...steps.trade ? [steps.trade] : [],
    ...steps.notes,
  ]);
  const many = files.length > 1;
  const cut = many ? `${files.length} stepping sheets, one for each colour,` : `${name}-stepping.${format}`;
  return `${cut} and ${many ? 'their' : 'its'} map, ${name}-stepping-map.pdf, are in your downloads; `
    + 'the map is below, too.';
}

// Makes the cut files of the sheet in parts, and their map.
/** @param {View} view @param {string} name @param {string} format @param {Drawn[]} lettering @param {Ask} ask */
export async function makeParts(view, name, format, lettering, ask) {
  const sheets = {...platesOf(view), overTies: Boolean(wishes('plates').overTies), lettering};
  const {value, bytes} = await ask('join', {format, sheets, paper: paperOf(view)});
  way = {chosen: value.chosen, cutFile: `${name}-part-1.${format} to -${value.parts.length}`};
  download(new Blob([bytes.slice(value.mapFrom)], {type: 'application/pdf'}), `${name}-assembly-map.pdf`);
  const {parts, joints, notes} = value;
  for (const {part, plate, offset, length} of value.files) {
    const blob = new Blob([bytes.slice(offset, offset + length)], {type: value.type});
    download(blob, `${name}${plate ? `-plate-${plate}` : ''}-part-${part}.${format}`);
  }
  draw(view, [], (at) => {
    for (const {line} of joints) {
      map.append(shape('polyline', {class: 'joint', points: line.map((p) => at(p).join(',')).join(' ')}));
    }
    for (const part of parts) {
      const [x, y] = at(part.at);
      const high = Math.min(part.width, part.height) * 0.35;
      map.append(text([x + part.width / 2, y - part.height / 2], part.number, high));
    }
  });
  /** @param {number} mm */
  const size = (mm) => write(mm, 'length', view.units);
  say([
    ...parts.map((part) => `Part ${part.number}: ${size(part.width)} × ${size(part.height)} ${view.units}, `
      + `${count(part.openings, 'opening', 'openings')}.`),
    ...joints.map((joint, i) => `Joint ${i + 1} keeps ${size(joint.clear)} ${view.units} from any opening.`),
    ...notes,
  ]);
  return `${count(value.files.length, 'cut file', 'cut files')} and the assembly map are in your downloads; `
    + 'how they meet is below.';
}

// Sheets for each colour, where they are wished and there are several colours.
/** @param {View} view @returns {Wishes} */
const platesOf = (view) => (wishes('steps').plates && view.paint.colours.length > 1 ? {plates: true} : {});

// Which openings are laid in which colour, and where.
/** @param {StepsAnswer} steps */
function key({key: rows}) {
  return rows.map(({name, openings, places}) => {
    const where = places.length ? `at ${runs(places)}` : 'wherever it is laid';
    return `${name}: ${openings.length === 1 ? 'opening' : 'openings'} ${runs(openings)}, ${where}.`;
  });
}

// What is masked where, places alike together. What only runs over the margin is masked with it, once for all.
/** @param {StepPlace[]} places */
function masks(places) {
  /** @type {Map<string, number[]>} */
  const alike = new Map();
  for (const {number, mask} of places) {
    if (!mask.length) continue;
    const which = `${mask.length === 1 ? 'opening' : 'openings'} ${runs(mask)}`;
    alike.set(which, [...(alike.get(which) ?? []), number]);
  }
  return [...alike].map(([which, numbers]) => `At ${runs(numbers)} mask ${which}.`);
}

// Numbers in words, what follows each other by its ends: 1–4, 7, 9.
/** @param {number[]} numbers */
function runs(numbers) {
  /** @type {[number, number][]} */
  const out = [];
  for (const n of numbers) {
    const last = out.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else out.push([n, n]);
  }
  return out.map(([from, to]) => {
    if (from === to) return `${from}`;
    return to === from + 1 ? `${from}, ${to}` : `${from}–${to}`;
  }).join(', ');
}

// How the sheet was last made, for the job sheet: nothing where it is cut whole.
export const chosenWay = () => way;

/** @param {View} view */
const paperOf = (view) => String(wishes('study').paper || (view.units === 'in' ? 'Letter' : 'A4'));

// Empties the map: the draft has changed.
export function forgetSteps() {
  way = {};
  map.replaceChildren();
  show(false);
}

// Draws the panel and what lies on it; more are points that must be in sight too. at carries a panel point to the map.
/** @param {View} view @param {Point[]} more @param {(at: (point: Point) => Point) => void} fill */
function draw(view, more, fill) {
  const {width, height} = view.panel;
  const air = Math.max(width, height) / 12;
  /** @param {Point} point @returns {Point} */
  const at = ([x, y]) => [x, height - y];
  /** @type {Point[]} */
  const seen = [[0, 0], [width, height], ...more.map(at)];
  const [x0, y0, x1, y1] = [Math.min, Math.max].flatMap((pick) => [0, 1].map((k) => pick(...seen.map((p) => p[k]))));
  map.setAttribute('viewBox', `${x0 - air} ${y0 - air} ${x1 - x0 + 2 * air} ${y1 - y0 + 2 * air}`);
  map.replaceChildren(shape('rect', {class: 'panel', x: 0, y: 0, width, height}));
  fill(at);
  show(true);
}

/** @param {boolean} yes */
function show(yes) {
  map.toggleAttribute('hidden', !yes);
  list.hidden = !yes;
}

/** @param {string[]} lines */
function say(lines) {
  list.replaceChildren(...lines.map((line) => make('li', '', line)));
}

// The middle of a sheet whose lower left corner lies at a place of the panel.
/** @param {Point} corner @param {{width: number, height: number, turn: number}} sheet @returns {Point} */
function middle([x, y], {width, height, turn}) {
  const cos = Math.cos(turn * Math.PI / 180) / 2, sin = Math.sin(turn * Math.PI / 180) / 2;
  return [x + width * cos - height * sin, y + width * sin + height * cos];
}

// How far the nearest other point is from each.
/** @param {Point[]} points */
function nearest(points) {
  return points.map(([x, y], i) => {
    const far = points.map(([u, v], j) => (i === j ? Infinity : Math.hypot(u - x, v - y)));
    return Math.min(...far);
  });
}

/** @param {Point} point @param {string | number} words @param {number} size */
function text([x, y], words, size) {
  const element = shape('text', {x, y, 'font-size': size});
  element.textContent = String(words);
  return element;
}

/** @param {number} n @param {string} one @param {string} more */
const count = (n, one, more) => `${n} ${n === 1 ? one : more}`;
