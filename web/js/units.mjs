// Numbers at the page's border: the editor speaks millimetres and degrees, the person types either unit.

const INCH = 25.4; // mm, exactly

// What kinds of field there are: the unit behind them, decimals shown and the step of the arrow keys, in mm and in inches;
// whether the arrow keys go from whole number to whole number.
const kinds = {
  length: {mm: {after: 'mm', decimals: 2, step: 1}, in: {after: 'in', decimals: 3, step: 0.0625}},
  fine: {mm: {after: 'mm', decimals: 3, step: 0.05}, in: {after: 'in', decimals: 4, step: 0.002}},
  angle: {after: '°', decimals: 2, step: 1},
  plain: {after: '', decimals: 2, step: 1},
  count: {after: '', decimals: 2, step: 1, whole: true}, // of things that are there in whole numbers, or nearly
  ratio: {after: '×', decimals: 3, step: 0.01},
};

// The settings of a kind in a unit, 'mm' or 'in'.
export function kindOf(kind, units) {
  return kinds[kind][units] ?? kinds[kind];
}

function factor(kind, units) {
  return units === 'in' && kinds[kind].in ? INCH : 1;
}

// A value in mm, degrees or plain as text in the shown unit, without needless noughts.
export function write(value, kind, units) {
  const {decimals} = kindOf(kind, units);
  return plain(value / factor(kind, units), decimals);
}

export function plain(value, decimals) {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

// Text as a value in mm, degrees or plain; NaN when it is not a number. A comma will do for the point, and a unit may
// be written out: 3.5 in, 12 mm, 2 cm, 7 1/2 in.
export function parse(text, kind, units) {
  const match = /^\s*([-+−]?)\s*(?:(\d+)\s+)?(\d+[.,]?\d*|[.,]\d+)(?:\s*\/\s*(\d+))?\s*(mm|cm|in|inch|inches|"|″|°|deg|×|x)?\s*$/i.exec(text);
  if (!match) return NaN;
  const [, sign, whole, number, under, unit] = match;
  let value = Number(number.replace(',', '.'));
  if (under) value /= Number(under) || NaN;
  else if (whole) return NaN;
  value += Number(whole ?? 0);
  if (sign && sign !== '+') value = -value;
  const length = Boolean(kinds[kind].in);
  if (!unit || /^(°|deg|×|x)$/i.test(unit)) return value * factor(kind, units);
  if (!length) return NaN;
  const scale = {mm: 1, cm: 10}[unit.toLowerCase()] ?? INCH;
  return value * scale;
}
