// What is drawn on the picture that is brought in: the part to be read, a level line, two points of a known distance.

import {cropOf, levelBy, picked, pointsSet, quarterTurns, setCrop, setPoints} from './choices.mjs';
import {byId, every, find} from './dom.mjs';
/** @import {Paper} from './paper.mjs' */

const form = byId('bring-form');

/**
 * Each button draws its own; later is called when that changes what is read.
 * @param {Paper} sheet
 * @param {() => void} later
 */
export function bindAids(sheet, later) {
  /** @type {Record<string, {say: string, done: (from: Point, to: Point) => void}>} */
  const aids = {
    crop: {
      say: 'Draw across the part that is to be read, from one corner to the other.',
      done: ([x0, y0], [x1, y1]) => {
        setCrop([Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)]);
        later();
      },
    },
    level: {say: 'Draw along something that should lie level, or upright.', done: levelBy},
    points: {
      say: 'Draw from one point to another whose distance you know.',
      done: (from, to) => {
        setPoints([from, to]);
        find(form, '[data-trace=distance]').focus();
        later();
      },
    },
  };

  // Begins to draw on the picture, or lets it be.
  /** @param {HTMLElement} button */
  const aid = (button) => {
    const kind = button.getAttribute('aria-pressed') === 'true' ? '' : button.dataset.aid ?? '';
    for (const each of every(form, '[data-aid]')) each.setAttribute('aria-pressed', String(each.dataset.aid === kind));
    const line = byId('bring-aid');
    line.hidden = !kind;
    line.textContent = kind ? aids[kind].say : '';
    if (!kind) return sheet.draw(null);

    byId('bring-paper').scrollIntoView({block: 'nearest'});
    sheet.draw(kind, (from, to) => {
      aid(find(form, '[data-aid][aria-pressed=true]'));
      aids[kind].done(from, to);
    });
  };
  for (const each of every(form, '[data-aid]')) each.addEventListener('click', () => aid(each));
}

/** @param {Paper} sheet */
export function showAids(sheet) {
  const size = sheet.size(quarterTurns());
  sheet.aids({crop: size && cropOf(...size), points: picked('scale') === 'distance' ? pointsSet() : null});
}
