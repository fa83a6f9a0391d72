// The walk in time: where the speaker was when, what needs review, where nobody spoke.
import { h, s, cap, refill } from './dom.js';
import { state, on, placeOf, placeName, shownTime, toldTime } from './state.js';
import { player, seek, mountPlayer } from './player.js';

const SILENCE = 5;
/** @type {HTMLElement|null} */ let bar = null,
  head = null,
  tip = null,
  root = null;
/** @type {{place:string,from:number,to:number}[]} */ let stretches = [];
let length = 0;

export function mountStrip(el) {
  root = el;
  const box = h('div', { class: 'player', role: 'group', 'aria-label': 'Sound' });
  head = h('div', { class: 'playhead', 'aria-hidden': 'true' });
  tip = h('div', { class: 'tip', 'aria-hidden': 'true', hidden: true });
  bar = h('div', {
    class: 'bar',
    role: 'slider',
    tabindex: '0',
    'aria-label': 'Place in the walk',
    'aria-describedby': 'strip-told',
    'data-strip': true,
  });
  bar.addEventListener('pointerdown', (e) => {
    seek(timeAt(e));
    bar.setPointerCapture(e.pointerId);
  });
  bar.addEventListener('pointermove', (e) => {
    const t = timeAt(e);
    if (e.buttons) seek(t);
    tip.hidden = false;
    tip.textContent = `${shownTime(t)} ${sayPlace(t)}`;
    tip.style.left = Math.max(5, Math.min(92, (t / length) * 100)) + '%';
  });
  bar.addEventListener('pointerleave', () => {
    tip.hidden = true;
  });
  bar.addEventListener('keydown', (e) => {
    const step = { ArrowRight: 5, ArrowUp: 5, ArrowLeft: -5, ArrowDown: -5, PageUp: 60, PageDown: -60 }[e.key];
    if (step) seek(player.at + step);
    else if (e.key === 'Home') seek(0);
    else if (e.key === 'End') seek(length);
    else return;
    e.preventDefault();
    e.stopPropagation();
  });
  refill(root, box, h('div', { class: 'track' }, bar, tip), h('p', { class: 'hush', id: 'strip-told' }));
  mountPlayer(box);
}

const timeAt = (e) => {
  const r = bar.getBoundingClientRect();
  return Math.max(0, Math.min(1, (e.clientX - r.left) / r.width)) * length;
};
const sayPlace = (t) => {
  const x = stretches.find((x) => t >= x.from && t < x.to);
  return x ? placeName(x.place) : '';
};

export function drawStrip() {
  if (!root || !state.rec) return;
  const lines = [...state.lines.values()].filter((l) => l.line.start != null);
  const lastWord = state.words.length ? state.words[state.words.length - 1][2] : 0;
  length = state.rec.length || Math.max(lastWord || 0, ...lines.slice(-1).map((l) => l.line.end || 0));
  root.hidden = !length;
  if (!length) return;
  stretches = [];
  for (const l of lines.filter((l) => l.state !== 'dropped').sort((a, b) => a.line.start - b.line.start)) {
    const place = placeOf(l.line),
      last = stretches[stretches.length - 1];
    if (last && last.place === place) continue;
    if (last) last.to = l.line.start;
    stretches.push({ place, from: last ? l.line.start : 0, to: length });
  }
  const H = 36;
  const svg = s('svg', { viewBox: `0 0 ${length} ${H}`, preserveAspectRatio: 'none', 'aria-hidden': 'true' });
  for (const x of stretches)
    svg.append(
      s('rect', { x: x.from, y: 0, width: Math.max(0, x.to - x.from), height: 22, class: 'at at-' + tone(x.place) }),
    );
  let end = 0,
    quiet = '';
  for (const w of state.words) {
    if (w[1] == null) continue;
    if (w[1] - end > SILENCE) quiet += `M${end} 17h${w[1] - end}v5h${end - w[1]}z`;
    end = Math.max(end, w[2] ?? w[1]);
  }
  if (state.words.length && length - end > SILENCE) quiet += `M${end} 17h${length - end}v5h${end - length}z`;
  const ticks = (st) =>
    lines
      .filter(st)
      .map((l) => `M${l.line.start} 25v9`)
      .join('');
  svg.append(
    s('path', { d: quiet, class: 'quiet' }),
    s('path', {
      d: ticks((l) => l.state !== 'flagged' && l.line.flags.length),
      class: 'tick done',
      'vector-effect': 'non-scaling-stroke',
    }),
    s('path', { d: ticks((l) => l.state === 'flagged'), class: 'tick', 'vector-effect': 'non-scaling-stroke' }),
  );
  const labels = stretches
    .filter((x) => (x.to - x.from) / length > 0.055)
    .map((x) => {
      const el = h('span', { class: 'label', 'aria-hidden': 'true' }, cap(placeName(x.place)));
      el.style.left = (x.from / length) * 100 + '%';
      el.style.maxWidth = ((x.to - x.from) / length) * 100 + '%';
      return el;
    });
  bar.replaceChildren(svg, ...labels, head);
  bar.setAttribute('aria-valuemin', '0');
  bar.setAttribute('aria-valuemax', String(Math.round(length)));
  const told = stretches
    .slice(0, 40)
    .map((x) => `${toldTime(x.from)} to ${toldTime(x.to)} ${placeName(x.place)}`)
    .join('; ');
  root.querySelector('#strip-told').textContent = `The walk: ${told}${stretches.length > 40 ? '; and so on' : ''}.`;
  move(player.at);
}

const tone = (place) => (place.startsWith('structure:') ? 'other' : place);

let shownSecond = -1;
function move(t) {
  if (!length || !head) return;
  head.style.left = (t / length) * 100 + '%';
  const sec = Math.floor(t);
  if (sec === shownSecond) return;
  shownSecond = sec;
  bar.setAttribute('aria-valuenow', String(sec));
  bar.setAttribute('aria-valuetext', `${toldTime(t)} ${sayPlace(t)}`);
}
on('time', move);
