// Starts the page, goes between the recordings and one recording, and joins its parts.
import { h, $, clip, count, refill, tell } from './dom.js';
import { state, on } from './state.js';
import { listen, Gone } from './api.js';
import { chooseFirst, choose } from './selection.js';
import { rowOf } from './rows.js';
import { closeEdit } from './edit.js';
import { drawPlan } from './plan.js';
import { showTab, taughtChanged } from './notes.js';
import { toQuestions } from './questions.js';
import { markChosen } from './transcript.js';
import { mountKeys } from './keys.js';
import { openSound } from './player.js';
import { askName, dialogOpen, closeDialog } from './dialogs.js';
import { fetchQueue, drawQueue } from './queue.js';
import { clear as clearOffer } from './teach.js';
import { drawHead } from './head.js';
import { drawTools, drawFilter, clearFilter } from './tools.js';
import { bare, openRecording, drawAround, reload, showPane } from './recording.js';
import { theme } from './theme.js';

let going = 0;

/** Shows what the address names. */
async function go() {
  const mine = ++going,
    id = decodeURIComponent(/^#\/(.+)$/.exec(location.hash)?.[1] || '');
  const isWanted = () => mine === going;
  closeEdit();
  if (dialogOpen()) closeDialog(null);
  clearOffer();
  tell('');
  try {
    if (!id) return await openQueue(isWanted);
    await openRecording(id, isWanted);
    if (!state.who && isWanted()) askName();
  } catch (e) {
    if (isWanted() && !(e instanceof Gone)) showProblem(e.message);
  }
}

function showProblem(message) {
  state.id = null;
  state.rec = null;
  bare();
  drawHead();
  refill(
    $('main'),
    h(
      'div',
      { class: 'queue' },
      h('h1', {}, 'This can’t be shown'),
      h('p', {}, clip(message, 300)),
      h('p', {}, h('a', { href: '#/' }, 'All recordings')),
    ),
  );
}

async function openQueue(isWanted) {
  const all = await fetchQueue();
  if (!isWanted()) return;
  state.many = all.length !== 1;
  if (all.length === 1) {
    history.replaceState(null, '', '#/' + encodeURIComponent(all[0].id));
    return go();
  }
  openSound();
  Object.assign(state, { id: null, rec: null, lines: new Map(), chosen: null });
  bare();
  drawHead();
  document.title = 'Eavesdraft review';
  drawQueue($('main'), all);
}

on('changed', () => {
  drawAround();
  drawTools();
  markChosen();
});
on('chosen', markChosen);
on('marks', drawTools);
on('filter', () => {
  const n = drawFilter();
  drawPlan();
  tell(`${count(n, 'line')} shown.`);
  if (!state.chosen || rowOf(state.chosen)?.hidden) chooseFirst({ focus: false, scroll: true });
});
on('search', () => {
  showPane('lines');
  $('search').focus();
  $('search').select();
});
on('show-line', (id) => {
  if (rowOf(id)?.hidden) clearFilter();
  showPane('lines');
  choose(id);
});
on('questions', () => {
  showPane('side');
  showTab('questions');
  toQuestions();
});
on('who', () => {
  drawHead();
  if (state.id) reload();
});
on('reload', () => reload());
on('taught', () => {
  taughtChanged();
  if (state.id) reload();
});

let soon = 0,
  heard = 0;
on('change-heard', (e) => {
  if (e && state.id && e.recording !== state.id) return;
  heard = Math.max(heard, e && state.id ? e.event : Infinity);
  clearTimeout(soon);
  // The page's own changes are heard too; by then the answer has mostly come and there is nothing new.
  soon = setTimeout(() => {
    const n = heard;
    heard = 0;
    if (!state.rec || n > state.rec.version) reload();
  }, 80);
});

const banner = (text) => {
  $('banner').hidden = !text;
  $('banner').textContent = text;
};
on('offline', (off) => {
  banner(off ? 'Connection lost. Changes are not being saved. Trying again…' : '');
  document.body.classList.toggle('is-offline', off);
  if (off) return;
  tell('Connected again.');
  if (state.rec || $('main').querySelector('.queue')) reload();
  else go();
});
on('locked', () => banner('This page needs its key: open it with the full address that the program printed.'));

theme();
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawHead);
$('skip').addEventListener('click', (e) => {
  e.preventDefault();
  (rowOf(state.chosen) || $('main')).focus();
});
document.addEventListener('click', (e) => {
  for (const m of document.querySelectorAll('details.menu[open]')) if (!m.contains(e.target)) m.open = false;
});
addEventListener('hashchange', go);
mountKeys();
drawHead();
listen();
go();
