// Beside the lines: the words, questions about the house, what is still needed on site, what wasn't used, the history.
import { h, button, clip, refill, keepTyped } from './dom.js';
import { state, itemName } from './state.js';
import { sayLine } from './words.js';
import { addDialog } from './add_line.js';
import { wordShown } from './transcript.js';
import { mountTranscript } from './word_selection.js';
import { drawQuestions } from './questions.js';
import { drawFollowUps } from './follow_ups.js';
import { drawHistory } from './history.js';
import { mountTakeoff, drawTakeoff } from './takeoff.js';
import { part, quoteOf } from './parts.js';

const TABS = [
  ['words', 'Words'],
  ['questions', 'Questions'],
  ['follow-ups', 'Still needed'],
  ['takeoff', 'Takeoff'],
  ['unused', 'Not used'],
  ['notes', 'Notes'],
  ['history', 'History'],
];
let tab = 'words';
const panels = {},
  tabs = {};

export function mountNotes(el) {
  const list = h('div', { class: 'tabs', role: 'tablist', 'aria-label': 'Words and notes' });
  for (const [k, name] of TABS) {
    const [id, panel] = ['tab-' + k, 'panel-' + k],
      onclick = () => showTab(k);
    tabs[k] = h('button', { type: 'button', role: 'tab', id, 'aria-controls': panel, 'data-tab': k, onclick }, name);
    const focus = k === 'words' ? null : '0';
    panels[k] = h('div', {
      role: 'tabpanel',
      id: panel,
      'aria-labelledby': id,
      class: `panel ${panel}`,
      tabindex: focus,
    });
    list.append(tabs[k]);
  }
  list.addEventListener('keydown', byArrows);
  el.replaceChildren(list, ...Object.values(panels));
  mountTranscript(panels.words);
  mountTakeoff(panels.takeoff);
  showTab('words');
}

function byArrows(e) {
  const i = TABS.findIndex(([k]) => k === tab);
  const to = { ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: TABS.length - 1 }[e.key];
  if (to == null) return;
  e.preventDefault();
  e.stopPropagation();
  const k = TABS[(to + TABS.length) % TABS.length][0];
  showTab(k);
  tabs[k].focus();
}

export function showTab(k) {
  tab = k;
  for (const [x] of TABS) {
    tabs[x].setAttribute('aria-selected', String(x === k));
    tabs[x].tabIndex = x === k ? 0 : -1;
    panels[x].hidden = x !== k;
  }
  drawShown();
  if (k === 'words') wordShown();
}

/** What is asked of the server is drawn only where it is seen. */
function drawShown() {
  if (tab === 'history') drawHistory(panels.history);
  if (tab === 'takeoff') drawTakeoff();
}

function label(k, n) {
  const name = TABS.find(([x]) => x === k)[1];
  tabs[k].replaceChildren(name, ...(n ? [h('span', { class: 'n' }, String(n))] : []));
}

export function drawNotes() {
  const r = state.rec;
  if (!r) return;
  label('questions', r.questions.length);
  label('follow-ups', r.follow_ups.filter((one) => !one.done).length);
  label('unused', r.unused.length + r.strays.length);
  label('notes', r.cautions.length + r.no_work.length + r.mentioned.length);
  drawQuestions(panels.questions);
  keepTyped(panels['follow-ups'], () => drawFollowUps(panels['follow-ups'], r));
  drawUnused(r);
  drawRemarks(r);
  drawShown();
}
export const taughtChanged = () => {
  if (tab === 'history') drawHistory(panels.history);
};

const nothing = (t) => h('p', { class: 'soft empty' }, t);

function drawUnused(r) {
  refill(
    panels.unused,
    part('Not used', 'These words sound like work or a measurement but aren’t in any line.', r.unused, unused),
    part(
      'Reviewed before, not in the new draft',
      'Somebody worked on these lines; the new draft doesn’t have them.',
      r.strays,
      stray,
    ),
    !r.unused.length && !r.strays.length && nothing('Nothing that sounds like work was left over.'),
  );
}

function unused(x, i) {
  const from = { ...x, item: x.item ? itemName(x.item) : '' };
  const about = { 'data-keep': 'make' + i, 'aria-label': `Make a line of: ${clip(x.quote, 60)}` };
  return said(
    x,
    button('Make a line', 'add', () => addDialog(null, from), about),
  );
}

function stray(x) {
  const { line, shown } = x.line,
    { quote, side, structure, start, end } = line;
  const make = () => addDialog(null, { quote, item: shown.item, side, structure, start, end });
  return h(
    'li',
    {},
    h('b', {}, sayLine(x.line)),
    h('span', { class: 'soft' }, ' ' + clip(shown.place, 60)),
    h('p', { class: 'soft' }, clip(x.why, 160)),
    button('Make a line', 'add', make, { 'aria-label': `Make a line of: ${sayLine(x.line)}` }),
  );
}

function drawRemarks(r) {
  refill(
    panels.notes,
    part('Cautions', '', r.cautions, caution),
    part('No work needed', 'Looked at and said to be fine.', r.no_work, (x) => said(x)),
    part('Mentioned, no work', '', r.mentioned, (x) => said(x)),
    !(r.cautions.length + r.no_work.length + r.mentioned.length) && nothing('No notes.'),
  );
}

const caution = (c) =>
  h(
    'li',
    {},
    h('b', {}, clip(c.name, 80)),
    h('p', {}, clip(c.text, 600)),
    c.source && h('p', { class: 'soft' }, clip(c.source, 200)),
  );

function said(x, more) {
  const side = x.side && x.side !== 'none' ? ', ' + x.side : '';
  return h(
    'li',
    {},
    h('b', {}, clip(x.item ? itemName(x.item) : 'Something', 80)),
    h('span', { class: 'soft' }, ` ${clip(x.structure, 40)}${side}`),
    quoteOf(x),
    more,
  );
}
