// The words as they were heard: unsure ones marked, any of them played or taken as a new line.
import { h, button, clip, clock, refill, tell, count, key } from './dom.js';
import { state, on, shownTime } from './state.js';
import { playFrom, player } from './player.js';
import { addDialog } from './edit.js';

const WEAK = 0.35;
/** @type {HTMLElement|null} */ let box = null, tools = null;
/** @type {HTMLElement[]} */ let spans = [];
let caret = 0, anchor = -1, picking = false, drag = -1, playing = -1, follow = true, starts = [];

export function mountTranscript(el) {
  box = h('div', { class: 'words', role: 'group', 'aria-label': 'Words of the recording, arrow keys go from word to word' });
  tools = h('div', { class: 'word-tools' });
  // The tools come after the words: they grow and shrink without moving the words under the pointer.
  el.replaceChildren(box, tools);
  let moved = false;
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
  addEventListener('pointerup', (e) => {
    const i = drag;
    drag = -1;
    if (i >= 0) { if (moved) focusWord(caret); else press(i, e.shiftKey); }
  });
  addEventListener('pointercancel', () => { drag = -1; });
  // A press by a screen reader has no pointer.
  box.addEventListener('click', (e) => { const i = wordAt(e); if (e.detail === 0 && i >= 0) press(i, false); });
  box.addEventListener('keydown', onKey);
  box.addEventListener('copy', (e) => {
    if (anchor < 0) return;
    const [a, b] = range();
    e.clipboardData.setData('text/plain', state.words.slice(a, b + 1).map((w) => w[0]).join(' '));
    e.preventDefault();
  });
}

function press(i, shift) {
  if (shift || (picking && anchor >= 0)) setRange(anchor >= 0 ? anchor : caret, i);
  else if (picking) setRange(i, i);
  else { setRange(-1, i); playWord(i); }
  focusWord(i);
}

const wordAt = (e) => {
  const el = (e.type === 'pointermove' ? document.elementFromPoint(e.clientX, e.clientY) : e.target)?.closest?.('[data-word]');
  return el ? Number(el.dataset.word) : -1;
};
const range = () => (anchor < 0 ? null : [Math.min(anchor, caret), Math.max(anchor, caret)]);

let job = 0;
/** Draws the transcript in slices, so that a long one does not hold up the lines. */
export function drawTranscript() {
  const mine = ++job, words = state.words, cuts = state.utterances.length ? state.utterances : [0];
  spans = new Array(words.length);
  starts = words.map((w) => w[1]);
  caret = 0; anchor = -1; playing = -1;
  box.replaceChildren();
  if (!words.length) box.append(h('p', { class: 'soft' }, 'No words are kept for this recording.'));
  const clips = state.rec.clips.length < 2 ? [] : state.rec.clips.map((c, n) => [c, n + 1]);
  let u = cuts[0] > 0 ? -1 : 0;
  const slice = () => {
    if (mine !== job) return;
    const part = document.createDocumentFragment(), until = performance.now() + 12;
    for (; u < cuts.length && performance.now() < until; u++) {
      const a = u < 0 ? 0 : cuts[u], b = u + 1 < cuts.length ? cuts[u + 1] : words.length;
      part.append(...clipHeads(clips, a));
      const p = h('p', { class: 'utter' });
      if (words[a]?.[1] != null) p.append(h('span', { class: 'at-time', 'aria-hidden': 'true' }, shownTime(words[a][1])));
      for (let i = a; i < b; i++) { p.append(spans[i] = drawWord(i), ' '); }
      part.append(p);
    }
    box.append(part);
    if (u < cuts.length) setTimeout(slice, 0);
    else { box.append(...clipHeads(clips, Infinity)); if (spans[0]) spans[0].tabIndex = 0; marked = null; markChosen(); }
  };
  slice();
  drawTools();
}

/** Where the clips begin, of `clips`, whose first word is not after word `i`; those are taken out. */
function clipHeads(clips, i) {
  const heads = [];
  while (clips.length && clips[0][0].first_word <= i) {
    const [c, n] = clips.shift();
    heads.push(h('h3', { class: 'clip-head' }, `Clip ${n}: ${clip(c.source, 120)}`, c.length != null && h('span', { class: 'soft' }, ' ' + clock(c.length))));
  }
  return heads;
}

function drawWord(i) {
  const w = state.words[i], weak = w[3] != null && w[3] < WEAK;
  const el = document.createElement('span');
  el.textContent = clip(w[0], 120).trim() || '·';
  el.dataset.word = String(i);
  el.tabIndex = -1;
  el.setAttribute('role', 'button');
  if (weak) { el.className = 'weak'; el.title = `Not heard clearly (${Math.round(w[3] * 100)} in 100)`; el.setAttribute('aria-label', clip(w[0], 120) + ', not heard clearly'); }
  return el;
}

function focusWord(i) {
  const el = spans[i];
  if (!el) return;
  if (spans[caret]) spans[caret].tabIndex = -1;
  caret = i;
  el.tabIndex = 0;
  el.focus({ preventScroll: true });
  el.scrollIntoView({ block: 'nearest' });
}

function setRange(from, to) {
  const old = range();
  if (old) for (let i = old[0]; i <= old[1]; i++) spans[i]?.classList.remove('taken');
  if (spans[caret] && caret !== to) spans[caret].tabIndex = -1;
  anchor = from; caret = to;
  if (spans[caret]) spans[caret].tabIndex = 0;
  const now = range();
  if (now) for (let i = now[0]; i <= now[1]; i++) spans[i]?.classList.add('taken');
  drawTools();
}

function onKey(e) {
  if (!spans.length || e.ctrlKey || e.metaKey || e.altKey || !e.target.dataset?.word) return;
  const cuts = state.utterances, now = cuts.findLastIndex((c) => c <= caret);
  let to = null;
  if (e.key === 'ArrowRight') to = caret + 1;
  else if (e.key === 'ArrowLeft') to = caret - 1;
  else if (e.key === 'ArrowDown') to = cuts[now + 1] ?? spans.length - 1;
  else if (e.key === 'ArrowUp') to = caret > cuts[now] ? cuts[now] : cuts[now - 1] ?? 0;
  else if (e.key === 'Home') to = 0;
  else if (e.key === 'End') to = spans.length - 1;
  else if (e.key === 'Enter' || e.key === ' ') playWord(caret);
  else if (e.key === '+' && range()) addFromWords();
  else if (e.key === 'Escape' && anchor >= 0) setRange(-1, caret);
  else return;
  e.preventDefault(); e.stopPropagation();
  if (to == null) return;
  to = Math.max(0, Math.min(spans.length - 1, to));
  if (e.shiftKey) setRange(anchor < 0 ? caret : anchor, to); else if (anchor >= 0) setRange(-1, to);
  focusWord(to);
}

function playWord(i) {
  const t = state.words[i]?.[1];
  if (t != null && state.rec.sound) playFrom(t);
}

async function addFromWords() {
  const r = range();
  if (!r || !(await addDialog(/** @type {[number,number]} */ (r)))?.ok) return;
  picking = false;
  setRange(-1, caret);
}

function drawTools() {
  const r = range();
  refill(tools,
    r ? [h('span', { class: 'soft' }, count(r[1] - r[0] + 1, 'word')),
      button(['Add a line from these words', key('+')], 'add', addFromWords, { class: 'main-button', 'data-keep': 'add' }),
      button('Let go', 'let-go', () => { picking = false; setRange(-1, caret); }, { 'data-keep': 'go' })]
      : [button('Take words', 'take-words', () => { picking = !picking; drawTools(); tell(picking ? 'Choose the first word, then the last.' : 'A word plays again.'); }, { 'aria-pressed': String(picking), 'data-keep': 'take', title: 'Choose the first and the last word of a new line (or drag over them)' }),
        button('Add a line', 'add-bare', () => addDialog(null), { 'data-keep': 'bare', title: 'Add a line that is not from the words' }),
        state.rec?.sound && button('Follow', 'follow', () => { follow = !follow; drawTools(); }, { 'aria-pressed': String(follow), title: 'The words move along with the sound', 'data-keep': 'follow' })]);
}

/** @type {[number,number]|null} */ let marked = null;
export function markChosen() {
  if (!box) return;
  if (marked) for (let i = marked[0]; i <= marked[1]; i++) spans[i]?.classList.remove('of-line');
  marked = state.lines.get(state.chosen)?.words ?? null;
  if (!marked) return;
  for (let i = marked[0]; i <= marked[1]; i++) spans[i]?.classList.add('of-line');
  if (!player.playing || !follow) show(marked[0]);
}

/** Brings a word into view of the transcript, never moving the page when the transcript is not shown beside the lines. */
function show(i) {
  const el = spans[i];
  if (!el) return;
  const go = () => {
    if (!box.clientHeight || getComputedStyle(box).overflowY !== 'auto') return;
    const a = el.getBoundingClientRect(), b = box.getBoundingClientRect();
    if (a.top < b.top + 20 || a.bottom > b.bottom - 40) box.scrollTop += a.top - b.top - b.height * 0.35;
  };
  // Not before the frame, or an act would lay the page out twice. Paragraphs out of view have a guessed height: look
  // again when they are drawn.
  requestAnimationFrame(() => { go(); requestAnimationFrame(go); });
}

export function wordShown() {
  if (marked && spans[marked[0]]) spans[marked[0]].scrollIntoView({ block: 'center' });
}

on('time', (t) => {
  if (!spans.length) return;
  let lo = 0, hi = starts.length - 1, at = -1;
  while (lo <= hi) { const m = (lo + hi) >> 1; if ((starts[m] ?? -1) <= t) { at = m; lo = m + 1; } else hi = m - 1; }
  if (at === playing) return;
  spans[playing]?.classList.remove('playing');
  playing = at;
  if (at < 0 || !player.playing) return;
  spans[at]?.classList.add('playing');
  if (follow) show(at);
});
