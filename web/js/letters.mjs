// Letters of a title that the program's own fonts lack: this browser draws them, and the engine traces what it drew, so
// that a printed page has them as outlines. Letters that stand side by side are drawn together, since they may depend
// on each other.

/** @import {Lane} from './engine.mjs' */

// What the embedded fonts are for: Latin, Greek and Cyrillic letters, and what all scripts share.
const LACKING = /[^\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]+/gu;
const EM = 256; // px that a letter is drawn high
const ABOVE = 1.3, BELOW = 0.6, BESIDE = 0.3; // of it: room round the letters, over the line and under it
const MM = 100; // that it is taken to be high by who traces it
const LONGEST = 40; // letters that are drawn together

/** @type {Map<string, Drawn>} */
const made = new Map();

// What of a text is drawn. What cannot be traced is left to the engine, which tells what it leaves out.
/** @param {string} text @param {Lane} lane @returns {Promise<Drawn[]>} */
export async function lettering(text, lane) {
  const out = [];
  for (const run of new Set(text.match(LACKING) ?? [])) {
    const known = made.get(run) ?? (run.length <= LONGEST ? await draw(run, lane) : null);
    if (!known) continue;
    made.set(run, known);
    out.push(known);
  }
  return out;
}

/** @param {string} text @param {Lane} lane @returns {Promise<Drawn | null>} */
async function draw(text, lane) {
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d');
  if (!pen) return null;
  const font = `${EM}px serif`;
  pen.font = font;
  const width = pen.measureText(text).width;
  if (!(width > 0)) return null;
  canvas.width = Math.ceil(width + 2 * BESIDE * EM);
  canvas.height = Math.ceil((ABOVE + BELOW) * EM);
  pen.font = font; // a new size has forgotten it
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.fillStyle = '#000';
  pen.fillText(text, BESIDE * EM, ABOVE * EM);
  const blob = await new Promise((/** @type {(blob: Blob | null) => void} */ resolve) =>
    canvas.toBlob(resolve, 'image/png'));
  if (!blob) return null;
  try {
    const {value} = await lane.ask('trace', {
      name: 'letters.png', options: {height: canvas.height / EM * MM, flat: true},
    }, {bytes: new Uint8Array(await blob.arrayBuffer())});
    /** @type {{outline: Outline}[]} */
    const pieces = JSON.parse(value.pieces);
    const low = (canvas.height - ABOVE * EM) / EM; // of the line over the picture's foot, in sizes
    const outline = pieces.flatMap((piece) => piece.outline.map((polygon) => polygon.map((ring) => (
      ring.map(([x, y]) => /** @type {Point} */ ([x / MM - BESIDE, y / MM - low]))))));
    return outline.length ? {text, width: width / EM, outline} : null;
  } catch {
    return null;
  }
}
