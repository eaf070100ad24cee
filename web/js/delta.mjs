// Texts that are much alike, told by what differs: steps of a draft's history are kept so.

/**
 * A text, or what makes it of the one before: so many characters of that from its beginning, these in the middle, and so
 * many from its end.
 * @typedef {{text: string} | {head: number, mid: string, tail: number}} Written
 */

/** @param {string} before @param {string} text @returns {Written} */
export function written(before, text) {
  if (!before) return {text};
  const most = Math.min(before.length, text.length);
  let head = 0, tail = 0;
  while (head < most && before[head] === text[head]) head++;
  while (tail < most - head && before[before.length - 1 - tail] === text[text.length - 1 - tail]) tail++;
  return {head, mid: text.slice(head, text.length - tail), tail};
}

// The text again; throws where it does not follow from the one before.
/** @param {string} before @param {Written} how */
export function read(before, how) {
  if ('text' in how) return how.text;
  const {head, mid, tail} = how;
  if (!(head >= 0 && tail >= 0 && head + tail <= before.length)) throw new Error('A step of the history is not whole.');
  return before.slice(0, head) + mid + before.slice(before.length - tail);
}

// How much of the store it takes, in characters.
/** @param {Written} how */
export function weight(how) {
  return 'text' in how ? how.text.length : how.mid.length;
}
