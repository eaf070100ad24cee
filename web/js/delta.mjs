// Texts that are much alike, told by their lines: steps of a draft's history are kept so.

/**
 * A text; or, one after the other, lines of its own and runs of lines of the text before: the first, and how many.
 * @typedef {{text: string} | {lines: (string | [number, number])[]}} Written
 */

/** @param {string} before @param {string} text @returns {Written} */
export function written(before, text) {
  if (!before) return {text};
  const places = new Map(before.split('\n').map((line, i) => [line, i]));
  /** @type {(string | [number, number])[]} */
  const lines = [];
  for (const line of text.split('\n')) {
    const place = places.get(line), last = lines.at(-1);
    if (place === undefined) lines.push(line);
    else if (Array.isArray(last) && last[0] + last[1] === place) last[1]++;
    else lines.push([place, 1]);
  }
  return {lines};
}

// The text again; throws where it does not follow from the one before.
/** @param {string} before @param {Written} how */
export function read(before, how) {
  if ('text' in how) return how.text;
  const had = before.split('\n');
  return how.lines.flatMap((line) => {
    if (typeof line === 'string') return line;
    const [first, count] = line;
    const there = first >= 0 && count > 0 && first + count <= had.length;
    if (!there) throw new Error('A step of the history is not whole.');
    return had.slice(first, first + count);
  }).join('\n');
}

// How much of the store it takes, in characters, about.
/** @param {Written} how */
export function weight(how) {
  return 'text' in how ? how.text.length : how.lines.reduce((sum, line) => sum + line.length + 4, 0);
}
