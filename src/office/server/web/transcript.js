// The words as they were heard: hard-to-hear ones marked, those of the chosen line and of the moment that plays shown.
import { h, clip, clock } from './dom.js';
import { state, on, emit, shownTime } from './state.js';
import { player } from './player.js';

/** Words that the recogniser was less sure of are marked. */
const WEAK = 0.35;
/** How long the words are drawn before the rest of the page gets its turn, in milliseconds. */
const SLICE = 12;

/** What others need of the words: where they are, an element for each, and whether they follow the sound. */
export const transcript = {
  /** @type {HTMLElement|null} */ box: null,
  /** @type {HTMLElement[]} */ spans: [],
  follow: true,
};
let starts = [],
  playing = -1,
  job = 0;
/** @type {[number,number]|null} */ let marked = null;

/** Draws the transcript in slices, so that a long one does not hold up the lines. */
export function drawTranscript() {
  const mine = ++job,
    words = state.words,
    cuts = state.utterances.length ? state.utterances : [0];
  transcript.spans = new Array(words.length);
  starts = words.map((w) => w[1]);
  playing = -1;
  transcript.box.replaceChildren();
  if (!words.length) transcript.box.append(h('p', { class: 'soft' }, 'There are no words for this recording.'));
  const clips = state.rec.clips.length < 2 ? [] : state.rec.clips.map((c, n) => [c, n + 1]);
  let u = cuts[0] > 0 ? -1 : 0;
  const slice = () => {
    if (mine !== job) return;
    const part = document.createDocumentFragment(),
      until = performance.now() + SLICE;
    for (; u < cuts.length && performance.now() < until; u++) {
      const from = u < 0 ? 0 : cuts[u];
      part.append(...clipHeads(clips, from), drawUtterance(from, u + 1 < cuts.length ? cuts[u + 1] : words.length));
    }
    transcript.box.append(part);
    if (u < cuts.length) setTimeout(slice, 0);
    else finish(clips);
  };
  slice();
  emit('words-drawn');
}

function finish(clips) {
  transcript.box.append(...clipHeads(clips, Infinity));
  if (transcript.spans[0]) transcript.spans[0].tabIndex = 0;
  marked = null;
  markChosen();
}

/** Where the clips begin, of `clips`, whose first word is not after word `i`; those are taken out. */
function clipHeads(clips, i) {
  const heads = [];
  while (clips.length && clips[0][0].first_word <= i) {
    const [c, n] = clips.shift();
    const length = c.length != null && h('span', { class: 'soft' }, ' ' + clock(c.length));
    heads.push(h('h3', { class: 'clip-head' }, `Clip ${n}: ${clip(c.source, 120)}`, length));
  }
  return heads;
}

function drawUtterance(from, to) {
  const p = h('p', { class: 'utter' }),
    start = state.words[from]?.[1];
  if (start != null) p.append(h('span', { class: 'at-time', 'aria-hidden': 'true' }, shownTime(start)));
  for (let i = from; i < to; i++) {
    transcript.spans[i] = drawWord(i);
    p.append(transcript.spans[i], ' ');
  }
  return p;
}

function drawWord(i) {
  const [word, , , probability] = state.words[i],
    el = document.createElement('span');
  el.textContent = clip(word, 120).trim() || '·';
  el.dataset.word = String(i);
  el.tabIndex = -1;
  el.setAttribute('role', 'button');
  if (probability != null && probability < WEAK) {
    el.className = 'weak';
    el.title = `Hard to hear (${Math.round(probability * 100)}% sure)`;
    el.setAttribute('aria-label', clip(word, 120) + ', hard to hear');
  }
  return el;
}

/** Marks the words of the chosen line. */
export function markChosen() {
  if (!transcript.box) return;
  turn(marked, 'of-line', false);
  marked = state.lines.get(state.chosen)?.words ?? null;
  turn(marked, 'of-line', true);
  if (marked && (!player.playing || !transcript.follow)) show(marked[0]);
}

/** Gives a class to a stretch of words, or takes it away. @param {[number,number]|null} range */
export function turn(range, name, on) {
  if (range) for (let i = range[0]; i <= range[1]; i++) transcript.spans[i]?.classList.toggle(name, on);
}

/** Brings a word into view of the transcript, never moving the page when the transcript is not beside the lines. */
function show(i) {
  const el = transcript.spans[i],
    { box } = transcript;
  if (!el) return;
  const go = () => {
    if (!box.clientHeight || getComputedStyle(box).overflowY !== 'auto') return;
    const a = el.getBoundingClientRect(),
      b = box.getBoundingClientRect();
    if (a.top < b.top + 20 || a.bottom > b.bottom - 40) box.scrollTop += a.top - b.top - b.height * 0.35;
  };
  // Not before the frame, or a change would lay the page out twice. Paragraphs out of view have a guessed height: look
  // again when they are drawn.
  requestAnimationFrame(() => {
    go();
    requestAnimationFrame(go);
  });
}

export function wordShown() {
  if (marked) transcript.spans[marked[0]]?.scrollIntoView({ block: 'center' });
}

/** The last word that begins by that moment. */
function wordAt(t) {
  let lo = 0,
    hi = starts.length - 1,
    at = -1;
  while (lo <= hi) {
    const m = (lo + hi) >> 1;
    if ((starts[m] ?? -1) <= t) {
      at = m;
      lo = m + 1;
    } else hi = m - 1;
  }
  return at;
}

on('time', (t) => {
  const { spans, follow } = transcript;
  if (!spans.length) return;
  const at = wordAt(t);
  if (at === playing) return;
  spans[playing]?.classList.remove('playing');
  playing = at;
  if (at < 0 || !player.playing) return;
  spans[at]?.classList.add('playing');
  if (follow) show(at);
});
