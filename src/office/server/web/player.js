// Plays the recording: whole, from a word, or a line with a second before and after.
import { h, $, button, clock, tell, refill } from './dom.js';
import { state, emit, shownTime } from './state.js';
import { recPath, withKey } from './api.js';

const LEAD = 1,
  TAIL = 1,
  SPEEDS = [1, 1.25, 1.5, 1.75, 2];
const WAITING = 'Getting the sound ready…';
const audio = new Audio();
audio.preload = 'none';
let from = 0,
  until = null,
  loop = false,
  speed = Number(localStorage.getItem('eavesdraft.speed')) || 1,
  frame = 0,
  tries = 0,
  retry = 0;
/** @type {HTMLElement|null} */ let root = null;

export const player = {
  at: 0,
  get playing() {
    return !audio.paused;
  },
};

export function mountPlayer(el) {
  root = el;
  draw();
}

export function openSound() {
  audio.pause();
  audio.removeAttribute('src');
  until = null;
  tries = 0;
  player.at = 0;
  clearTimeout(retry);
  draw();
}

function ready() {
  if (!state.rec?.sound) {
    tell('There is no sound to play, only the words.', 'bad');
    return false;
  }
  if (!audio.getAttribute('src')) {
    audio.src = withKey(recPath(state.id, '/sound'));
    audio.currentTime = player.at;
  }
  return true;
}

function start() {
  if (!ready()) return;
  audio.defaultPlaybackRate = audio.playbackRate = speed;
  audio.play().catch((e) => {
    if (e.name === 'NotAllowedError') tell('The browser didn’t let the sound start. Press play again.', 'bad');
  });
}

export function playRange(a, b, pad = true) {
  if (a == null) {
    tell('This comes from text, so there is nothing to play.');
    return;
  }
  from = Math.max(0, a - (pad ? LEAD : 0));
  until = b == null ? null : b + (pad ? TAIL : 0);
  seek(from);
  start();
}

export function playFrom(t) {
  if (t == null) return;
  until = null;
  from = t;
  seek(t);
  start();
}

/** Stops, or plays the chosen line. `always`: another line that is playing gives way to this one. */
export function toggleLine(line, always = false) {
  const range = line && until != null && from === Math.max(0, line.line.start - LEAD);
  if (player.playing && (!always || !line || range)) return audio.pause();
  if (line) playRange(line.line.start, line.line.end);
  else toggle();
}

export function toggle() {
  if (player.playing) audio.pause();
  else {
    until = null;
    start();
  }
}

export function seek(t) {
  if (until != null && (t < from || t > until)) until = null;
  player.at = Math.max(0, Math.min(t, state.rec?.length ?? t));
  if (audio.getAttribute('src')) audio.currentTime = player.at;
  emit('time', player.at);
  drawTime();
}

export function setSpeed(step) {
  const i = SPEEDS.indexOf(speed);
  speed = SPEEDS[Math.max(0, Math.min(SPEEDS.length - 1, (i < 0 ? 0 : i) + step))];
  audio.playbackRate = speed;
  localStorage.setItem('eavesdraft.speed', String(speed));
  tell(`Speed ${speed}×`);
  draw();
}

export function toggleLoop() {
  loop = !loop;
  tell(loop ? 'The line repeats.' : 'The line plays once.');
  draw();
}

function tick() {
  player.at = audio.currentTime;
  if (until != null && player.at >= until) {
    if (loop) audio.currentTime = from;
    else {
      audio.pause();
      until = null;
    }
  }
  emit('time', player.at);
  drawTime();
  frame = audio.paused ? 0 : requestAnimationFrame(tick);
}
audio.addEventListener('play', () => {
  draw();
  if (!frame) frame = requestAnimationFrame(tick);
});
audio.addEventListener('pause', () => {
  cancelAnimationFrame(frame);
  frame = 0;
  draw();
});
audio.addEventListener('playing', () => {
  if ($('told').textContent === WAITING) tell('');
  tries = 0;
});
audio.addEventListener('error', () => {
  if (!audio.getAttribute('src')) return;
  const wanted = player.at,
    keepUntil = until;
  audio.removeAttribute('src');
  // While the server decodes a long recording it asks for patience.
  if (tries++ < 40) {
    tell(WAITING);
    retry = setTimeout(() => {
      player.at = wanted;
      until = keepUntil;
      start();
    }, 1200);
  } else tell('The sound can’t be played.', 'bad');
  draw();
});

let timeEl = null;
function drawTime() {
  const text = shownTime(player.at);
  if (timeEl && timeEl.textContent !== text) timeEl.textContent = text;
}

function draw() {
  if (!root || !state.rec) return;
  if (!state.rec.sound) {
    refill(root, h('span', { class: 'soft' }, 'No sound'));
    timeEl = null;
    return;
  }
  timeEl = h('span', { class: 'now' }, shownTime(player.at));
  refill(
    root,
    button(player.playing ? '❚❚' : '▶', 'play', toggle, {
      class: 'round',
      'data-keep': 'play',
      'aria-label': player.playing ? 'Stop' : 'Play',
      title: 'Play or stop (the chosen line: Space)',
    }),
    h('span', { class: 'times' }, timeEl, h('span', { class: 'soft' }, ' / ' + clock(state.rec.length))),
    button('−', 'slower', () => setSpeed(-1), {
      class: 'mini',
      'data-keep': 'slow',
      'aria-label': 'Slower',
      title: 'Slower  [',
    }),
    h('span', { class: 'speed' }, speed + '×'),
    button('+', 'faster', () => setSpeed(1), {
      class: 'mini',
      'data-keep': 'fast',
      'aria-label': 'Faster',
      title: 'Faster  ]',
    }),
    button('Repeat', 'loop', toggleLoop, {
      class: 'mini',
      'data-keep': 'loop',
      'aria-pressed': String(loop),
      title: 'Repeat the line  l',
    }),
  );
}
