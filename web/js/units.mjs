// Numbers at the page's border: the editor speaks millimetres and degrees, the person types either unit.

export const INCH = 25.4; // mm, exactly
export const OUNCE = 29.5735295625; // ml in a US fluid ounce, exactly: 231/128 cubic inches

/**
 * @typedef {'length' | 'fine' | 'area' | 'angle' | 'plain' | 'count' | 'ratio' | 'percent' | 'volume' | 'density'} Kind
 * @typedef {{after: string, decimals: number, step: number, whole?: boolean, per?: number}} Look
 */

// What kinds of field there are: the unit behind them, decimals shown and the step of the arrow keys, in mm and in
// inches; whether the arrow keys go from whole number to whole number.
/** @type {Record<Kind, {mm: Look, in: Look}>} */
const kinds = {
  length: {mm: {after: 'mm', decimals: 2, step: 1}, in: {after: 'in', decimals: 3, step: 0.0625}},
  fine: {mm: {after: 'mm', decimals: 3, step: 0.05}, in: {after: 'in', decimals: 4, step: 0.002}},
  area: {mm: {after: 'mm²', decimals: 2, step: 0.1}, in: {after: 'in²', decimals: 5, step: 0.0002}},
  angle: alike({after: '°', decimals: 2, step: 1}),
  plain: alike({after: '', decimals: 2, step: 1}),
  count: alike({after: '', decimals: 2, step: 1, whole: true}), // of things that are there in whole numbers, or nearly
  ratio: alike({after: '×', decimals: 3, step: 0.01}),
  percent: alike({after: '%', decimals: 1, step: 1, per: 0.01}),
  volume: {mm: {after: 'ml', decimals: 1, step: 10}, in: {after: 'fl oz', decimals: 2, step: 0.5, per: OUNCE}},
  density: alike({after: 'g/ml', decimals: 3, step: 0.05}),
};

/** @param {Look} look */
function alike(look) {
  return {mm: look, in: look};
}

/** @param {Kind} kind */
const isLength = (kind) => kinds[kind].mm !== kinds[kind].in && kind !== 'volume';

// A length with its unit.
/** @param {number} mm @param {Units} units @param {Kind} [kind] */
export function measure(mm, units, kind = 'length') {
  return `${write(mm, kind, units)} ${units}`;
}

// The kind of a field by the name that the page has for it.
/** @param {string | undefined} name @returns {Kind} */
export function kindNamed(name) {
  if (!name || !(name in kinds)) throw new Error(`There is no kind of number called ${name}.`);
  return /** @type {Kind} */ (name);
}

// The settings of a kind in a unit.
/** @param {Kind} kind @param {Units} units */
export function kindOf(kind, units) {
  return kinds[kind][units];
}

// What one of the shown unit is in mm, mm², ml or as it stands.
/** @param {Kind} kind @param {Units} units */
export function factor(kind, units) {
  const {per} = kindOf(kind, units);
  if (per) return per;
  if (units === 'mm' || !isLength(kind)) return 1;
  return kind === 'area' ? INCH ** 2 : INCH;
}

// A value in mm, degrees or plain as text in the shown unit, without needless noughts.
/** @param {number} value @param {Kind} kind @param {Units} units */
export function write(value, kind, units) {
  const {decimals} = kindOf(kind, units);
  return plain(value / factor(kind, units), decimals);
}

/** @param {number} value @param {number} decimals */
export function plain(value, decimals) {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

// A sign, whole ones before a fraction, a number, what it is divided by, a unit.
const NUMBER = new RegExp([
  /^\s*([-+−]?)\s*(?:(\d+)\s+)?(\d+[.,]?\d*|[.,]\d+)(?:\s*\/\s*(\d+))?\s*/,
  /(mm|cm|in|inch|inches|"|″|°|deg|×|x|%|ml|fl oz|g\/ml)?\s*$/,
].map((part) => part.source).join(''), 'i');

// Text as a value in mm, degrees or plain; NaN when it is not a number. A comma will do for the point, and a unit may
// be written out: 3.5 in, 12 mm, 2 cm, 7 1/2 in.
/** @param {string} text @param {Kind} kind @param {Units} units */
export function parse(text, kind, units) {
  const match = NUMBER.exec(text);
  if (!match) return NaN;
  const [, sign, whole, number, under, unit] = match;
  let value = Number(number.replace(',', '.'));
  if (under) value /= Number(under) || NaN;
  else if (whole) return NaN;
  value += Number(whole ?? 0);
  if (sign && sign !== '+') value = -value;
  if (!unit || /^(°|deg|×|x|%|g\/ml)$/i.test(unit)) return value * factor(kind, units);
  const name = unit.toLowerCase();
  if (kind === 'volume') return name === 'ml' ? value : name === 'fl oz' ? value * OUNCE : NaN;
  if (!isLength(kind) || kind === 'area' || name === 'ml' || name === 'fl oz') return NaN;
  return value * (name === 'mm' ? 1 : name === 'cm' ? 10 : INCH);
}
