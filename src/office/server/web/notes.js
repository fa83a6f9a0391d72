// Beside the lines: the words, questions about the house, what is to do on site, what was said but made no line, and what was done.
import { h, button, clip, cap, refill, keepTyped, when } from './dom.js';
import { state, emit, itemName, shownTime, toldTime } from './state.js';
import { get, recPath } from './api.js';
import { act } from './settle.js';
import { sayLine } from './lines.js';
import { playRange } from './player.js';
import { addDialog } from './edit.js';
import { remembered, takeBack } from './teach.js';
import { mountTranscript, wordShown } from './transcript.js';
import { drawQuestions } from './questions.js';
import { mountTakeoff, drawTakeoff } from './takeoff.js';

const TABS = [['words', 'Words'], ['ask', 'Questions'], ['todo', 'To do'], ['takeoff', 'Takeoff'], ['unplaced', 'Not placed'], ['notes', 'Notes'], ['done', 'History']];
let tab = 'words';
const panels = {}, tabs = {};

export function mountNotes(el) {
  const list = h('div', { class: 'tabs', role: 'tablist', 'aria-label': 'Words and notes' });
  for (const [k, name] of TABS) {
    tabs[k] = h('button', { type: 'button', role: 'tab', id: 'tab-' + k, 'aria-controls': 'panel-' + k, 'data-tab': k, onclick: () => showTab(k) }, name);
    panels[k] = h('div', { role: 'tabpanel', id: 'panel-' + k, 'aria-labelledby': 'tab-' + k, class: 'panel panel-' + k, tabindex: k === 'words' ? null : '0' });
    list.append(tabs[k]);
  }
  list.addEventListener('keydown', (e) => {
    const i = TABS.findIndex(([k]) => k === tab), to = { ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: TABS.length - 1 }[e.key];
    if (to == null) return;
    e.preventDefault(); e.stopPropagation();
    const k = TABS[(to + TABS.length) % TABS.length][0];
    showTab(k); tabs[k].focus();
  });
  el.replaceChildren(list, ...Object.values(panels));
  mountTranscript(panels.words);
  mountTakeoff(panels.takeoff);
  showTab('words');
}

export function showTab(k) {
  tab = k;
  for (const [x] of TABS) {
    tabs[x].setAttribute('aria-selected', String(x === k));
    tabs[x].tabIndex = x === k ? 0 : -1;
    panels[x].hidden = x !== k;
  }
  if (k === 'done') drawHistory();
  if (k === 'takeoff') drawTakeoff();
  if (k === 'words') wordShown();
}

function label(k, n) {
  const name = TABS.find(([x]) => x === k)[1];
  tabs[k].replaceChildren(name, ...(n ? [h('span', { class: 'n' }, String(n))] : []));
}

export function drawNotes() {
  const r = state.rec;
  if (!r) return;
  label('ask', r.questions.length);
  label('todo', r.todos.filter((t) => !t.done).length);
  label('unplaced', r.unplaced.length + r.strays.length);
  label('notes', r.cautions.length + r.no_work.length + r.mentioned.length);
  drawQuestions(panels.ask);
  keepTyped(panels.todo, () => drawTodos(r));
  refill(panels.unplaced,
    part('Said, but not placed', 'Words that sound like work but made no line.', r.unplaced, (x, i) => said(x, button('Make a line', 'add', () => addDialog(null, { ...x, item: x.item ? itemName(x.item) : '' }), { 'data-keep': 'make' + i, 'aria-label': `Make a line of: ${clip(x.quote, 60)}` }))),
    part('Settled before, not in the new draft', 'A person worked on these; the new draft has no line for them.', r.strays, (x) => h('li', {}, h('b', {}, sayLine(x.line)), h('span', { class: 'soft' }, ' ' + clip(x.line.shown.place, 60)), h('p', { class: 'soft' }, clip(x.why, 160)),
      button('Make a line', 'add', () => addDialog(null, { quote: x.line.line.quote, item: x.line.shown.item, side: x.line.line.side, structure: x.line.line.structure, start: x.line.line.start, end: x.line.line.end }), { 'aria-label': `Make a line of: ${sayLine(x.line)}` }))),
    !r.unplaced.length && !r.strays.length && nothing('Everything that was said found its place.'));
  refill(panels.notes,
    part('Mind', '', r.cautions, (c) => h('li', {}, h('b', {}, clip(c.name, 80)), h('p', {}, clip(c.text, 600)), c.source && h('p', { class: 'soft' }, clip(c.source, 200)))),
    part('No work needed', 'Looked at, and said to be sound.', r.no_work, (x) => said(x)),
    part('Mentioned only', '', r.mentioned, (x) => said(x)),
    !(r.cautions.length + r.no_work.length + r.mentioned.length) && nothing('Nothing here.'));
  if (tab === 'done') drawHistory();
  if (tab === 'takeoff') drawTakeoff();
}

const nothing = (t) => h('p', { class: 'soft empty' }, t);
const part = (name, hint, list, each) => list.length > 0 && h('section', { class: 'part' }, h('h2', { class: 'small' }, `${name} (${list.length})`), hint && h('p', { class: 'soft' }, hint), h('ul', { role: 'list' }, list.slice(0, 400).map(each)));
const quoteOf = (x) => h('p', { class: 'quote-row' }, x.start != null && button(shownTime(x.start), 'play', () => playRange(x.start, x.end), { class: 'time', 'aria-label': `Play from ${toldTime(x.start)}` }), h('q', { class: 'quote' }, clip(x.quote, 260)));
const said = (x, more) => h('li', {}, h('b', {}, clip(x.item ? itemName(x.item) : 'Something', 80)), h('span', { class: 'soft' }, ` ${clip(x.structure, 40)}${x.side && x.side !== 'none' ? ', ' + x.side : ''}`), quoteOf(x), more);

const KINDS = [['measure', 'Tapes to read'], ['photo', 'Photos to take'], ['check', 'To check']];

function drawTodos(r) {
  const parts = KINDS.map(([kind, name]) => {
    const list = r.todos.filter((t) => t.kind === kind);
    return list.length > 0 && h('section', { class: 'part' }, h('h2', { class: 'small' }, `${name} (${list.filter((t) => !t.done).length} of ${list.length} left)`), h('ul', { role: 'list' }, list.map(drawTodo)));
  });
  refill(panels.todo, parts, !r.todos.length && nothing('Nothing to do on site.'));
}

/** @param {import('./state.js').Todo} t */
function drawTodo(t) {
  const id = 'todo-' + t.id, name = clip(t.item ? itemName(t.item) : t.quote, 80);
  const box = h('input', { type: 'checkbox', id, 'data-keep': id, '.checked': !!t.done, onchange: async (e) => {
    const r = await act(t.done ? { do: 'not-done', todo: t.id } : { do: 'done', todo: t.id });
    // The tick follows the server, not the finger.
    if (!r.ok) e.target.checked = !!t.done;
  } });
  const li = h('li', { 'data-todo': t.id, class: 'todo' + (t.done ? ' is-done' : '') },
    h('label', { class: 'tick-row', for: id }, box, h('span', {}, h('b', {}, cap(name)), h('span', { class: 'soft' }, ' ' + clip(t.place, 60)))), quoteOf(t));
  if (t.done) li.append(h('p', { class: 'note' }, `✓ ${clip(t.done.who, 40)}, ${when(t.done.at)}${t.done.note ? ': ' + clip(t.done.note, 80) : ''}`));
  else if (t.kind === 'measure') {
    const likely = t.lines.filter((x) => state.lines.has(x)), rest = [...state.lines.values()].filter((l) => l.state !== 'dropped' && !likely.includes(l.id) && l.line.side === t.side && l.line.structure === t.structure).map((l) => l.id).slice(0, 60);
    const which = h('select', { id: id + '-l', 'data-typed': id + '-l', 'data-field': 'line' }, [...likely, ...rest].map((x) => h('option', { value: x }, sayLine(state.lines.get(x)))), h('option', { value: '' }, 'no line, only note it'));
    const measure = h('input', { type: 'text', id: id + '-m', 'data-typed': id + '-m', 'data-field': 'measure', autocomplete: 'off', placeholder: '38\' 6"' }), error = h('p', { class: 'error', role: 'alert' });
    li.append(h('form', { class: 'tape', onsubmit: async (e) => {
      e.preventDefault();
      if (!measure.value.trim()) { error.textContent = 'Type what the tape says.'; measure.focus(); return; }
      const typed = measure.value;
      measure.removeAttribute('data-typed');
      const res = await act({ do: 'tape', todo: t.id, line: which.value || null, measure: typed });
      if (!res.ok) { measure.dataset.typed = id + '-m'; if (res.error) error.textContent = res.error; }
    } }, h('div', {}, h('label', { for: id + '-m' }, 'Measured'), measure), h('div', { class: 'grow' }, h('label', { for: id + '-l' }, 'for the line'), which), h('button', { type: 'submit', class: 'main-button', 'data-act': 'tape' }, 'Fill in'), error));
  }
  return li;
}

let asked = 0;
async function drawHistory() {
  const mine = ++asked, of = state.id;
  let acts, own;
  try { [acts, own] = await Promise.all([get(recPath(of, '/acts')), remembered()]); } catch (e) { return; }
  if (mine !== asked || of !== state.id) return;
  const list = acts.acts.slice(-300).reverse();
  refill(panels.done,
    own && h('section', { class: 'part' }, h('h2', { class: 'small' }, 'Own words'), own.remembered.length ? h('ul', { role: 'list' }, own.remembered.map((w) => h('li', { class: 'taught' }, h('span', {}, h('q', {}, clip(w.phrase, 80)), ' is ', h('b', {}, clip(itemName(w.item), 60)), h('span', { class: 'soft' }, ` ${clip(w.who, 40)}, ${when(w.at)}`)), button('Take back', 'take-back', () => takeBack(w.id), { 'data-keep': 'tb' + w.id, 'aria-label': `Take back “${clip(w.phrase, 60)}”` })))) : nothing('None are remembered.')),
    h('section', { class: 'part' }, h('h2', { class: 'small' }, 'What was done'), list.length ? h('ol', { class: 'history', role: 'list' }, list.map((a) => h('li', { class: a.undone ? 'undone' : '' },
      h('span', { class: 'soft' }, when(a.at)), h('span', {}, h('b', {}, clip(a.who, 40)), ' ', clip(a.told, 200), a.undone && ' (undone)'),
      a.lines.some((x) => state.lines.has(x)) && button('Show', 'show', () => { emit('show-line', a.lines.find((x) => state.lines.has(x))); }, { class: 'mini', 'data-keep': 'h' + a.number, 'aria-label': `Show the line of: ${clip(a.told, 60)}` })))) : nothing('Nothing yet.')));
}
export const taughtChanged = () => { if (tab === 'done') drawHistory(); };
