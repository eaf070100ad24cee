// The signs of mirrors, glides and rotation points: the switch beside the view's buttons, and the sentence about the one
// that is pointed at.

import {say} from './notices.mjs';

const button = document.getElementById('signs');
const line = document.getElementById('signs-said');

export function renderSigns({signs}) {
  button.setAttribute('aria-pressed', String(signs.shown));
  say(line, signs.shown ? signs.text : '');
}
