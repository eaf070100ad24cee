// The signs of mirrors, glides and rotation points: the switch beside the view's buttons, and the sentence about the
// one that is pointed at.

import {byId} from './dom.mjs';
import {say} from './notices.mjs';

const button = byId('signs');
const line = byId('signs-said');

/** @param {View} view */
export function renderSigns({signs}) {
  button.setAttribute('aria-pressed', String(signs.shown));
  say(line, signs.shown ? signs.text : '');
}
