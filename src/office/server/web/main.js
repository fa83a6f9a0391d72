// Starts the page, routes between the recordings and one recording, and keeps the head of the page.
import { h, $, button, clip, cap, count, key, refill, tell, when } from './dom.js';
import { state, on, emit, takeRecording, openCount, liveCount, placeName } from './state.js';
import { get, recPath, withKey, listen, Gone } from './api.js';
import { mountLines, drawLines, refreshLines, applyFilter, choose, nextOpen, visibleIds, clearMarks, rowOf } from './lines.js';
import { acting, acceptMarked, dropDialog, mergeDialog, moveDialog, settleScope, reopenScope, undo, redo } from './settle.js';
import { closeEdit } from './edit.js';
import { mountStrip, drawStrip } from './strip.js';
import { mountPlan, drawPlan } from './plan.js';
import { mountNotes, drawNotes, showTab, taughtChanged } from './notes.js';
import { toQuestions } from './questions.js';
import { drawTranscript, markChosen, wordShown } from './transcript.js';
import { mountKeys } from './keys.js';
import { openSound } from './player.js';
import { askName, helpDialog, dialogOpen, closeDialog } from './dialogs.js';
import { fetchQueue, drawQueue } from './queue.js';
import { clear as clearOffer } from './teach.js';

/** @type {HTMLElement|null} */ let list = null;
let mounted = false, going = 0;

function theme(way) {
  if (way) localStorage.setItem('eavesdraft.theme', way);
  const kept = localStorage.getItem('eavesdraft.theme');
  document.documentElement.style.colorScheme = kept || 'light dark';
  return kept || (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light');
}
const themeButton = () => {
  const other = theme() === 'dark' ? 'light' : 'dark';
  return button(other === 'dark' ? '◐' : '◑', 'theme', () => { theme(other); head(); }, { class: 'icon', 'data-keep': 'theme', 'aria-label': `Turn ${other}`, title: `Turn ${other}` });
};
const nameButton = () => button(state.who ? clip(state.who, 24) : 'Your name?', 'who', askName, { class: 'quiet-button who', 'data-keep': 'who', title: 'Who is reviewing' });

function head() {
  const r = state.rec;
  if (!state.id || !r) { refill($('head'), h('span', { class: 'brand' }, 'Eavesdraft'), h('span', { class: 'grow' }), nameButton(), themeButton()); return; }
  const open = openCount(), all = liveCount(), done = all ? ((all - open) / all) * 100 : 100;
  const bar = h('span', { class: 'progress', role: 'img', 'aria-label': `${Math.round(done)} in 100 settled` }, h('span'));
  bar.firstChild.style.width = done + '%';
  const step = (label, name, what, fn, k) => button([label], name, fn, { class: 'icon', 'data-keep': name, 'aria-disabled': what ? null : 'true', 'aria-label': what ? `${cap(name)}: ${clip(what, 120)}` : `Nothing to ${name}`, title: what ? `${cap(name)}: ${clip(what, 120)}  (${k})` : `Nothing to ${name}` });
  refill($('head'),
    state.many ? h('a', { href: '#/', class: 'back', 'data-keep': 'back' }, '← All') : h('span', { class: 'brand' }, 'Eavesdraft'),
    h('h1', { class: 'rec-title', title: clip(r.name, 200) }, clip(r.name, 120)),
    h('span', { class: 'state' }, r.settled ? h('span', { class: 'ok', 'data-progress': true }, `✓ Settled by ${clip(r.settled.who, 40)}, ${when(r.settled.at)}`) : [h('span', { 'data-progress': true }, `${open} of ${all} to settle`), bar]),
    r.questions.length > 0 && button(count(r.questions.length, 'question'), 'questions', () => emit('questions'), { class: 'quiet-button', 'data-keep': 'questions', title: 'Questions about the house  q' }),
    h('span', { class: 'grow' }),
    step('↶', 'undo', r.undo, undo, 'u'), step('↷', 'redo', r.redo, redo, 'r'),
    r.settled ? button('Reopen', 'reopen', reopenScope, { 'data-keep': 'settle' }) : button('Scope is settled', 'settle', settleScope, { class: open ? '' : 'main-button', 'data-keep': 'settle' }),
    documents(), nameButton(), themeButton(), button('?', 'help', helpDialog, { class: 'icon', 'data-keep': 'help', 'aria-label': 'Help: all keys', title: 'All keys  ?' }));
  document.title = `${open ? open + ' to settle, ' : ''}${clip(r.name, 60)}`;
  document.body.classList.toggle('is-settled', !!r.settled);
  document.body.classList.toggle('of-clips', r.clips.length > 1);
}

function documents() {
  const box = h('div', { class: 'menu-list' }, h('span', { class: 'soft' }, 'Looking…'));
  return h('details', { class: 'menu', ontoggle: async (e) => {
    if (!e.target.open) return;
    try {
      const d = await get(recPath(state.id, '/documents'));
      box.replaceChildren(...(d.documents.length ? d.documents.map((x) => h('a', { href: withKey(/^\/api\//.test(x.href) ? x.href : '#'), target: '_blank', rel: 'noopener' }, clip(x.name, 80))) : [h('span', { class: 'soft' }, 'None yet')]));
    } catch (err) { box.replaceChildren(h('span', { class: 'soft' }, err instanceof Gone ? 'Not connected' : err.message)); }
  } }, h('summary', { 'data-keep': 'docs' }, 'Documents'), box);
}

function tools() {
  const search = h('input', { type: 'search', id: 'search', placeholder: 'Search  /', 'aria-label': 'Search the lines', autocomplete: 'off', oninput: () => { state.filter.text = search.value; emit('filter'); } });
  const way = (k, name) => button(name, 'order-' + k, () => { state.order = k; localStorage.setItem('eavesdraft.order', k); closeEdit(); drawLines(); filterTold(); drawTools(); }, { 'data-order': k });
  return h('div', { class: 'tools', id: 'tools' }, h('div', { class: 'both', role: 'group', 'aria-label': 'Order of the lines' }, way('settle', 'To settle first'), way('place', 'All by place')), search, h('div', { id: 'marks', class: 'marks', role: 'group', 'aria-label': 'Marked lines' }), h('div', { id: 'filter-told', class: 'filter-told' }));
}
function drawTools() {
  for (const b of document.querySelectorAll('[data-order]')) b.setAttribute('aria-pressed', String(b.dataset.order === state.order));
  const n = state.marks.size, ids = [...state.marks];
  refill($('marks'), n > 0 && [h('span', {}, `${n} marked`),
    button(['Merge', key('m')], 'merge', mergeDialog, { 'data-keep': 'merge', 'aria-disabled': n < 2 ? 'true' : null }), button(['Move', key('g')], 'move', () => moveDialog(ids), { 'data-keep': 'move' }),
    button('Accept', 'accept', acceptMarked, { 'data-keep': 'acc' }), button('Drop', 'drop', () => dropDialog(ids), { 'data-keep': 'drop' }), button('Unmark', 'unmark', clearMarks, { 'data-keep': 'un' })]);
}

function filterTold() {
  const n = applyFilter(), f = state.filter, told = $('filter-told');
  const parts = [f.place && cap(clip(placeName(f.place), 40)), f.text && `“${clip(f.text, 40)}”`].filter(Boolean);
  refill(told, parts.length > 0 && [h('span', {}, `${parts.join(', ')}: ${count(n, 'line')}`), button('Show all', 'clear-filter', () => { f.place = null; f.text = ''; $('search').value = ''; emit('filter'); }, { 'data-keep': 'cf' })]);
  return n;
}

function mount() {
  if (mounted) return;
  mounted = true;
  list = h('div', { class: 'list' });
  $('main').replaceChildren(tools(), h('div', { class: 'scroll' }, list));
  mountLines(list);
  mountStrip($('strip')); mountPlan($('plan')); mountNotes($('side'));
  $('panes').replaceChildren(...[['lines', 'Lines'], ['side', 'Words & notes'], ['plan', 'Plan']].map(([k, name]) => button(name, 'pane-' + k, () => pane(k), { 'data-for': k })));
  pane('lines');
}
function pane(k) {
  document.body.dataset.pane = k;
  for (const b of $('panes').children) b.setAttribute('aria-pressed', String(b.dataset.for === k));
  if (k === 'side') wordShown();
  if (k === 'lines') rowOf(state.chosen)?.scrollIntoView({ block: 'nearest' });
}

async function go() {
  const mine = ++going, id = decodeURIComponent(/^#\/(.+)$/.exec(location.hash)?.[1] || '');
  closeEdit(); if (dialogOpen()) closeDialog(null); clearOffer(); tell('');
  try { if (id) await openRecording(id, mine); else await openQueue(mine); } catch (e) {
    if (mine !== going || e instanceof Gone) return;
    state.id = null; state.rec = null; bare(); head();
    refill($('main'), h('div', { class: 'queue' }, h('h1', {}, 'This cannot be shown'), h('p', {}, clip(e.message, 300)), h('p', {}, h('a', { href: '#/' }, 'All recordings'))));
  }
}

function bare() {
  mounted = false;
  for (const id of ['strip', 'plan', 'side', 'panes', 'notices']) { $(id).hidden = true; $(id).replaceChildren(); }
  document.body.classList.remove('with-recording', 'is-settled', 'of-clips');
}

async function openQueue(mine) {
  const all = await fetchQueue();
  if (mine !== going) return;
  state.many = all.length !== 1;
  if (all.length === 1) { history.replaceState(null, '', '#/' + encodeURIComponent(all[0].id)); return go(); }
  openSound();
  state.id = null; state.rec = null; state.lines = new Map(); state.chosen = null;
  bare(); head();
  document.title = 'Eavesdraft review';
  drawQueue($('main'), all);
}

async function openRecording(id, mine) {
  const others = state.many ? null : fetchQueue().catch(() => []);
  const words = get(recPath(id, '/words')).catch(() => ({ words: [], utterances: [] }));
  const [rec, cat] = await Promise.all([get(recPath(id) + who()), state.catalogue.items.length ? state.catalogue : get('/api/catalogue')]);
  if (mine !== going) return;
  state.catalogue = cat;
  Object.assign(state, { id, lines: new Map(), words: [], utterances: [], chosen: null, filter: { place: null, text: '' } });
  state.marks.clear();
  takeRecording(rec);
  bare(); mount();
  document.body.classList.add('with-recording');
  for (const x of ['plan', 'side', 'panes']) $(x).hidden = false;
  drawLines(); drawTools(); openSound(); whole();
  const first = nextOpen(visibleIds(), null) || visibleIds()[0];
  if (first) choose(first);
  const w = await words;
  if (mine !== going) return;
  Object.assign(state, { words: w.words, utterances: w.utterances });
  drawTranscript(); drawStrip();
  if (others) { state.many = (await others).length > 1; if (state.many && mine === going) head(); }
  if (!state.who && mine === going) askName();
}
const who = () => (state.who ? '?who=' + encodeURIComponent(state.who) : '');

/** All but the rows. */
function whole() {
  head(); drawPlan(); drawStrip(); drawNotes(); filterTold();
  const n = state.rec.notices;
  $('notices').hidden = !n.length;
  refill($('notices'), n.slice(0, 8).map((t) => h('p', {}, clip(t, 400))));
}

let loading = false, again = false;
/** Looks at the server's state anew and redraws only what differs. */
async function reload() {
  if (acting() || loading) { again = true; return; }
  loading = true;
  const id = state.id;
  try {
    if (!id) { const all = await fetchQueue(); if (!state.id) { state.many = all.length > 1; drawQueue($('main'), all); } return; }
    const rec = await get(recPath(id) + who());
    // An act that was answered meanwhile knows more than this.
    if (id !== state.id || acting() || rec.version < state.rec.version) { again = true; return; }
    const by = rec.version !== state.rec.version, ids = takeRecording(rec);
    refreshLines(ids);
    if (state.chosen && !state.lines.has(state.chosen)) choose(null);
    if (ids.length) { emit('heard', ids); markChosen(); }
    if (by && ids.length) { const l = state.lines.get(ids[0]); tell(`${l?.by && l.by !== state.who ? clip(l.by, 40) : 'Another window'} changed ${ids.length === 1 && l ? clip(l.shown.item, 60) : count(ids.length, 'line')}. ${openCount()} left.`); }
    whole();
  } catch (e) { if (!(e instanceof Gone)) tell(e.message, 'bad'); } finally {
    loading = false;
    if (again) { again = false; setTimeout(reload, 120); }
  }
}

on('acted', () => { whole(); drawTools(); markChosen(); });
on('chosen', markChosen);
on('marks', drawTools);
on('filter', () => { const n = filterTold(); drawPlan(); tell(`${count(n, 'line')} shown.`); if (state.chosen && !rowOf(state.chosen)?.hidden) return; const first = nextOpen(visibleIds(), null) || visibleIds()[0]; choose(first || null, { focus: false, scroll: true }); });
on('search', () => { pane('lines'); $('search').focus(); $('search').select(); });
on('show-line', (id) => { if (rowOf(id)?.hidden) { state.filter.place = null; state.filter.text = ''; $('search').value = ''; emit('filter'); } pane('lines'); choose(id); });
on('questions', () => { pane('side'); showTab('ask'); toQuestions(); });
on('who', () => { head(); if (state.id) reload(); });
on('reload', () => reload());
on('taught', () => { taughtChanged(); if (state.id) reload(); });
let soon = 0, heard = 0;
on('act-heard', (e) => {
  if (e && state.id && e.recording !== state.id) return;
  heard = Math.max(heard, e && state.id ? e.act : Infinity);
  clearTimeout(soon);
  // The page's own acts are heard too; by then the answer has mostly come and there is nothing new.
  soon = setTimeout(() => { const n = heard; heard = 0; if (!state.rec || n > state.rec.version) reload(); }, 80);
});
on('act-over', () => { if (again) { again = false; setTimeout(reload, 60); } });
on('offline', (off) => {
  $('banner').hidden = !off;
  $('banner').textContent = off ? 'Not connected: nothing you do now is kept. Trying again…' : '';
  document.body.classList.toggle('is-offline', off);
  if (!off) { tell('Connected again.'); if (state.rec || $('main').querySelector('.queue')) reload(); else go(); }
});
on('locked', () => { $('banner').hidden = false; $('banner').textContent = 'This page needs its key: open it through the whole address that the program printed.'; });

theme();
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => head());
$('skip').addEventListener('click', (e) => { e.preventDefault(); (rowOf(state.chosen) || $('main')).focus(); });
document.addEventListener('click', (e) => { for (const m of document.querySelectorAll('details.menu[open]')) if (!m.contains(e.target)) m.open = false; });
addEventListener('hashchange', go);
mountKeys();
head();
listen();
go();
