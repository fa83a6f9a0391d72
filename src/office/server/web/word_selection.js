// Words of the transcript taken by pointer or keyboard: played, or made into a new line.
import { h, button, refill, tell, count, key } from './dom.js';
import { state, on } from './state.js';
import { playFrom } from './player.js';
import { addDialog } from './add_line.js';
import { transcript, turn } from './transcript.js';

let caret = 0,
  anchor = -1,
  picking = false,
  drag = -1,
  moved = false;
/** @type {HTMLElement|null} */ let tools = null;

export function mountTranscript(el) {
  const label = 'Words of the recording. Arrow keys go from word to word';
  const box = h('div', { class: 'words', role: 'group', 'aria-label': label });
  transcript.box = box;
  tools = h('div', { class: 'word-tools' });
  // The tools come after the words: they grow and shrink without moving the words under the pointer.
  el.replaceChildren(box, tools);
  box.addEventListener('pointerdown', (e) => {
    drag = e.button === 0 ? wordAt(e) : -1;
    moved = false;
    if (drag >= 0 && e.pointerType !== 'touch') e.preventDefault();
  });
  box.addEventListener('pointermove', (e) => {
    if (drag < 0 || e.pointerType === 'touch' || !(e.buttons & 1)) return;
    const i = wordAt(e);
    if (i < 0 || (i === drag && !moved)) return;
    moved = true;
    setRange(drag, i);
  });
  // A press by a screen reader has no pointer.
  box.addEventListener('click', (e) => {
    const i = wordAt(e);
    if (e.detail === 0 && i >= 0) press(i, false);
  });
  box.addEventListener('keydown', onKey);
  box.addEventListener('copy', (e) => {
    if (anchor < 0) return;
    const [a, b] = range();
    e.clipboardData.setData(
      'text/plain',
      state.words
        .slice(a, b + 1)
        .map((w) => w[0])
        .join(' '),
    );
    e.preventDefault();
  });
}
addEventListener('pointerup', (e) => {
  const i = drag;
  drag = -1;
  if (i < 0) return;
  if (moved) focusWord(caret);
  else press(i, e.shiftKey);
});
addEventListener('pointercancel', () => {
  drag = -1;
});
on('words-drawn', () => {
  caret = 0;
  anchor = -1;
  drawTools();
});

function press(i, shift) {
  if (shift || (picking && anchor >= 0)) setRange(anchor >= 0 ? anchor : caret, i);
  else if (picking) setRange(i, i);
  else {
    setRange(-1, i);
    playWord(i);
  }
  focusWord(i);
}

function wordAt(e) {
  const at = e.type === 'pointermove' ? document.elementFromPoint(e.clientX, e.clientY) : e.target;
  const el = at?.closest?.('[data-word]');
  return el ? Number(el.dataset.word) : -1;
}
const range = () => (anchor < 0 ? null : [Math.min(anchor, caret), Math.max(anchor, caret)]);

function focusWord(i) {
  const el = transcript.spans[i];
  if (!el) return;
  tabTo(i);
  el.focus({ preventScroll: true });
  el.scrollIntoView({ block: 'nearest' });
}

/** Tab leads to this word from now on. */
function tabTo(i) {
  const { spans } = transcript;
  if (spans[caret]) spans[caret].tabIndex = -1;
  caret = i;
  if (spans[caret]) spans[caret].tabIndex = 0;
}

function setRange(from, to) {
  turn(range(), 'taken', false);
  anchor = from;
  tabTo(to);
  turn(range(), 'taken', true);
  drawTools();
}

/** Where a key leads: to another word. */
function target(k) {
  const cuts = state.utterances,
    now = cuts.findLastIndex((c) => c <= caret),
    last = transcript.spans.length - 1;
  const to = {
    ArrowRight: caret + 1,
    ArrowLeft: caret - 1,
    ArrowDown: cuts[now + 1] ?? last,
    ArrowUp: caret > cuts[now] ? cuts[now] : (cuts[now - 1] ?? 0),
    Home: 0,
    End: last,
  }[k];
  return to == null ? null : Math.max(0, Math.min(last, to));
}

function onKey(e) {
  if (!transcript.spans.length || e.ctrlKey || e.metaKey || e.altKey || !e.target.dataset?.word) return;
  const to = target(e.key);
  if (to == null) {
    if (e.key === 'Enter' || e.key === ' ') playWord(caret);
    else if (e.key === '+' && range()) addFromWords();
    else if (e.key === 'Escape' && anchor >= 0) setRange(-1, caret);
    else return;
  }
  e.preventDefault();
  e.stopPropagation();
  if (to == null) return;
  if (e.shiftKey) setRange(anchor < 0 ? caret : anchor, to);
  else if (anchor >= 0) setRange(-1, to);
  focusWord(to);
}

function playWord(i) {
  const t = state.words[i]?.[1];
  if (t != null && state.rec.sound) playFrom(t);
}

async function addFromWords() {
  const r = range();
  if (r && (await addDialog(/** @type {[number,number]} */ (r)))?.ok) clearRange();
}

function clearRange() {
  picking = false;
  setRange(-1, caret);
}

function drawTools() {
  const r = range();
  refill(tools, r ? rangeTools(r[1] - r[0] + 1) : wordTools());
}

const rangeTools = (n) => [
  h('span', { class: 'soft' }, count(n, 'word')),
  button(['Add a line from these words', key('+')], 'add', addFromWords, { class: 'main-button', 'data-keep': 'add' }),
  button('Clear', 'clear-words', clearRange, { 'data-keep': 'go' }),
];

function wordTools() {
  const pick = () => {
    picking = !picking;
    drawTools();
    tell(picking ? 'Choose the first word, then the last.' : 'Clicking a word plays it again.');
  };
  const follow = () => {
    transcript.follow = !transcript.follow;
    drawTools();
  };
  const pressed = (on, keep, title) => ({ 'aria-pressed': String(on), 'data-keep': keep, title });
  const picks = pressed(picking, 'take', 'Choose the first and the last word of a new line, or drag over them');
  const follows = pressed(transcript.follow, 'follow', 'Scroll the words along with the sound');
  const bare = { 'data-keep': 'bare', title: 'Add a line that isn’t from the recording' };
  return [
    button('Select words', 'select-words', pick, picks),
    button('Add a line', 'add-bare', () => addDialog(null), bare),
    state.rec?.sound && button('Follow', 'follow', follow, follows),
  ];
}
