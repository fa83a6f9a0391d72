// One recording on the page: its parts put up, drawn, and kept as the server has them.
import { h, $, button, clip, count, refill, tell } from './dom.js';
import { state, on, emit, takeRecording, flaggedCount } from './state.js';
import { get, recPath, getRecording, Gone } from './api.js';
import { mountList, drawLines, refreshLines } from './list.js';
import { mountSelection, choose, chooseFirst } from './selection.js';
import { rowOf } from './rows.js';
import { sending } from './commands.js';
import { mountStrip, drawStrip } from './strip.js';
import { mountPlan, drawPlan } from './plan.js';
import { mountNotes, drawNotes } from './notes.js';
import { drawTranscript, markChosen, wordShown } from './transcript.js';
import { openSound } from './player.js';
import { fetchQueue, drawQueue } from './queue.js';
import { drawHead } from './head.js';
import { tools, drawTools, drawFilter } from './tools.js';

const PANES = [
  ['lines', 'Lines'],
  ['side', 'Words & notes'],
  ['plan', 'Plan'],
];
let mounted = false;

/** Takes everything off the page that belongs to a recording. */
export function bare() {
  mounted = false;
  for (const id of ['strip', 'plan', 'side', 'panes', 'notices']) {
    $(id).hidden = true;
    $(id).replaceChildren();
  }
  document.body.classList.remove('with-recording', 'is-signed', 'of-clips');
}

function mount() {
  if (mounted) return;
  mounted = true;
  const list = h('div', { class: 'list' });
  $('main').replaceChildren(tools(), h('div', { class: 'scroll' }, list));
  mountList(list);
  mountSelection(list);
  mountStrip($('strip'));
  mountPlan($('plan'));
  mountNotes($('side'));
  const paneButton = ([k, name]) => button(name, 'pane-' + k, () => showPane(k), { 'data-for': k });
  $('panes').replaceChildren(...PANES.map(paneButton));
  showPane('lines');
  document.body.classList.add('with-recording');
  for (const x of ['plan', 'side', 'panes']) $(x).hidden = false;
}

export function showPane(k) {
  document.body.dataset.pane = k;
  for (const b of $('panes').children) b.setAttribute('aria-pressed', String(b.dataset.for === k));
  if (k === 'side') wordShown();
  if (k === 'lines') rowOf(state.chosen)?.scrollIntoView({ block: 'nearest' });
}

/** Puts a recording on the page. @param {()=>boolean} isWanted whether it still is, after a wait */
export async function openRecording(id, isWanted) {
  const others = state.many ? null : fetchQueue().catch(() => []);
  const words = get(recPath(id, '/words')).catch(() => ({ words: [], utterances: [] }));
  const catalogue = state.catalogue.items.length ? state.catalogue : get('/api/catalogue');
  const [rec, known] = await Promise.all([getRecording(id), catalogue]);
  if (!isWanted()) return;
  Object.assign(state, { id, catalogue: known, lines: new Map(), words: [], utterances: [], chosen: null });
  state.filter = { place: null, text: '' };
  state.marks.clear();
  takeRecording(rec);
  bare();
  mount();
  drawLines();
  drawTools();
  openSound();
  drawAround();
  chooseFirst();
  Object.assign(state, await words);
  if (!isWanted()) return;
  drawTranscript();
  drawStrip();
  if (!others) return;
  state.many = (await others).length > 1;
  if (state.many && isWanted()) drawHead();
}

/** Draws all but the rows. */
export function drawAround() {
  drawHead();
  drawPlan();
  drawStrip();
  drawNotes();
  drawFilter();
  const n = state.rec.notices;
  $('notices').hidden = !n.length;
  refill(
    $('notices'),
    n.slice(0, 8).map((t) => h('p', {}, clip(t, 400))),
  );
}

let loading = false,
  again = false;
/** Looks at the server's state again and redraws only what differs. */
export async function reload() {
  if (sending() || loading) {
    again = true;
    return;
  }
  loading = true;
  try {
    await (state.id ? reloadRecording(state.id) : reloadQueue());
  } catch (e) {
    if (!(e instanceof Gone)) tell(e.message, 'bad');
  } finally {
    loading = false;
    if (again) {
      again = false;
      setTimeout(reload, 120);
    }
  }
}
on('sent', () => {
  if (!again) return;
  again = false;
  setTimeout(reload, 60);
});

async function reloadQueue() {
  const all = await fetchQueue();
  if (state.id) return;
  state.many = all.length > 1;
  drawQueue($('main'), all);
}

async function reloadRecording(id) {
  const rec = await getRecording(id);
  // A command that was answered meanwhile knows more than this.
  if (id !== state.id || sending() || rec.version < state.rec.version) {
    again = true;
    return;
  }
  const newer = rec.version !== state.rec.version,
    ids = takeRecording(rec);
  refreshLines(ids);
  if (state.chosen && !state.lines.has(state.chosen)) choose(null);
  if (ids.length) {
    emit('heard', ids);
    markChosen();
  }
  if (newer && ids.length) tell(changedBy(ids));
  drawAround();
}

function changedBy(ids) {
  const l = state.lines.get(ids[0]),
    by = l?.by && l.by !== state.who ? clip(l.by, 40) : 'Another window';
  const what = ids.length === 1 && l ? clip(l.shown.item, 60) : count(ids.length, 'line');
  return `${by} changed ${what}. ${flaggedCount()} to review.`;
}
