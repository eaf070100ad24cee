// Sentences for the person: notes are said politely and go by themselves, errors are said at once and stay until closed.

const STAY = 7000; // ms a note stays

const notes = document.getElementById('notice');
const alarms = document.getElementById('alarm');
let timer = 0;

export function note(sentence) {
  show(notes, sentence);
  clearTimeout(timer);
  timer = setTimeout(() => notes.replaceChildren(), STAY);
}

// An error, with one thing to do about it if there is one: {label, run}.
export function alarm(sentence, deed) {
  show(alarms, sentence, deed);
}

// Passes on what the editor answered: '' when all is well, or a sentence.
export function tell(sentence) {
  if (sentence) alarm(sentence);
}

// Sets an element's text. A live region speaks whenever its text is set: it is left alone while it says the same.
export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

export function clearAlarm() {
  alarms.replaceChildren();
}

function show(place, sentence, deed) {
  const card = document.createElement('div');
  card.className = 'card';
  const text = document.createElement('p');
  text.textContent = sentence;
  card.append(text);
  if (deed) card.append(button(deed.label, deed.run));
  card.append(button('Close', () => place.replaceChildren()));
  place.replaceChildren(card);
}

function button(label, run) {
  const it = document.createElement('button');
  it.type = 'button';
  it.className = 'plain small';
  it.textContent = label;
  it.addEventListener('click', run);
  return it;
}

// Asks before something: resolves to true when the person goes on.
export function ask({name, lines, yes, no}) {
  const dialog = document.getElementById('ask');
  document.getElementById('ask-name').textContent = name;
  document.getElementById('ask-text').replaceChildren(...lines.map((line) => {
    const p = document.createElement('p');
    p.textContent = line;
    return p;
  }));
  document.getElementById('ask-yes').textContent = yes;
  document.getElementById('ask-no').textContent = no;
  dialog.returnValue = 'no';
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener('close', () => resolve(dialog.returnValue === 'yes'), {once: true});
  });
}
