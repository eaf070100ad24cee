// The signs of mirrors, glides and rotation points: the switch beside the view's buttons, and the sentence about the one
// that is pointed at.

const button = document.getElementById('signs');
const line = document.getElementById('signs-said');

export function renderSigns({signs}) {
  button.setAttribute('aria-pressed', String(signs.shown));
  const text = signs.shown ? signs.text : '';
  if (line.textContent !== text) line.textContent = text;
}
