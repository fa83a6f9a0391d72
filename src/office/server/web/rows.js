// One row of the list: a line with its words, its choices and, where it is chosen, its buttons. What a button asks for
// is told to the rest of the page, which does it.
import { h, button, clip, cap, key } from './dom.js';
import { state, emit, shownTime, toldTime } from './state.js';
import { sayLine, draftedAs } from './words.js';
import { playRange } from './player.js';

/** @type {Map<string, HTMLElement>} the row of each line */ const rows = new Map();

export const rowOf = (id) => rows.get(id);
export const forgetRow = (id) => rows.delete(id);
export const forgetRows = () => rows.clear();

export function drawRow(l) {
  const li = h('li', { class: 'line', 'data-line': l.id, tabindex: '-1' });
  rows.set(l.id, li);
  fillRow(li, l);
  return li;
}

const STATES = { flagged: ', needs review', reviewed: ', reviewed', dropped: ', dropped', unflagged: '' };

export function fillRow(li, l) {
  const chosen = l.id === state.chosen,
    tab = chosen ? null : '-1';
  const more = [chosen && 'chosen', state.marks.has(l.id) && 'marked', li.querySelector('form') && 'editing'];
  li.className = ['line', 'is-' + l.state, ...more].filter(Boolean).join(' ');
  li.setAttribute('aria-label', `${sayLine(l)}, ${clip(l.shown.place, 60)}${STATES[l.state]}`);
  const body = h('div', { class: 'body' }, facts(l, tab), notes(l), l.state === 'flagged' && review(l, tab));
  const old = li.querySelector(':scope > .body');
  if (old) old.replaceWith(body);
  else li.prepend(body);
}

/** The line itself: its fields and its quote. */
function facts(l, tab) {
  const { shown, line } = l;
  return [
    l.state === 'dropped' ? h('span') : markBox(l, tab),
    h(
      'span',
      { class: 'qty' + (shown.quantity ? '' : ' none') },
      h('b', {}, clip(shown.quantity, 20) || '?'),
      ' ',
      h('span', { class: 'unit' }, clip(shown.unit, 20)),
    ),
    h(
      'span',
      { class: 'what' },
      h('b', { class: 'item' }, clip(shown.item, 120)),
      shown.size && h('span', { class: 'size' }, clip(shown.size, 60)),
      line.detail && h('span', { class: 'detail' }, clip(line.detail, 80)),
      line.only_if && h('span', { class: 'badge-if', title: 'Not in totals' }, 'if found'),
    ),
    h('span', { class: 'job' + (shown.work ? '' : ' none') }, clip(shown.work, 60) || 'no work said'),
    h('span', { class: 'place' }, clip(shown.place, 60)),
    line.start == null ? h('span', { class: 'time' }) : playButton(line, tab),
    h('q', { class: 'quote' }, clip(line.quote, 260)),
  ];
}

const markBox = (l, tab) =>
  h(
    'label',
    { class: 'markbox' },
    h('input', {
      type: 'checkbox',
      class: 'mark',
      tabindex: tab,
      '.checked': state.marks.has(l.id),
      title: 'Select  x',
      'aria-label': 'Select ' + clip(l.shown.item, 60),
      onchange: () => emit('mark', l.id),
    }),
  );

const playButton = (line, tab) =>
  button(shownTime(line.start), 'play', () => playRange(line.start, line.end), {
    class: 'time',
    tabindex: tab,
    title: 'Play this line  p',
    'aria-label': `Play from ${toldTime(line.start)}`,
  });

/** Who decided on it, why it was dropped, and what it was drafted as. */
function notes(l) {
  const dropped = l.state === 'dropped',
    was = draftedAs(l);
  const how = dropped ? 'dropped' : l.drafted ? 'changed' : 'reviewed';
  const by = l.state !== 'flagged' && l.by ? `${how} by ${clip(l.by, 40)}` : '';
  return [
    dropped && l.reason && h('p', { class: 'note' }, 'Dropped: ' + clip(l.reason, 120)),
    (by || was)
      && h(
        'p',
        { class: 'note' },
        by && h('span', { class: 'by' }, (dropped ? '' : '✓ ') + by),
        was && h('span', { class: 'was' }, (by ? ', ' : '') + 'drafted as ', h('s', {}, was)),
      ),
  ];
}

/** Why a line needs review, and the answers to choose from. */
function review(l, tab) {
  const offered = new Set(l.choices.map((c) => c.command.do));
  const rest = CONDITION.filter(([, name]) => !offered.has(name));
  const keep = button(['Keep as drafted', key('a')], 'accept', () => emit('accept', l.id), {
    class: 'choice accept',
    tabindex: tab,
  });
  return h(
    'div',
    { class: 'review' },
    h(
      'ul',
      { class: 'reasons', role: 'list' },
      l.reasons.map((t) => h('li', {}, clip(t, 300))),
    ),
    h(
      'div',
      { class: 'choices', role: 'group', 'aria-label': 'Choices' },
      l.choices.slice(0, 9).map((c, i, all) => choice(c, i, all[i - 1]?.hint, tab)),
      l.line.only_if
        ? rest.map(([label, name, k]) => conditionButton(l.id, label, name, k, { class: 'choice', tabindex: tab }))
        : keep,
    ),
  );
}

function choice(c, i, hintBefore, tab) {
  const number = String(i + 1),
    other = CONDITION.find(([, name]) => name === c.command.do);
  const hint = c.hint && c.hint !== hintBefore && h('small', {}, clip(c.hint, 80));
  const label = [key(number), h('span', {}, cap(clip(c.label, 80))), other && key(other[2]), hint];
  return button(label, c.command.do, () => emit('send', c.command), {
    class: 'choice',
    'data-choice': number,
    tabindex: tab,
    'aria-keyshortcuts': number,
  });
}

/** What becomes of a line with a condition: what it is called, the command, its key. */
const CONDITION = [
  ['Include it', 'include', 'y'],
  ['Leave it out', 'leave-out', 'N'],
  ['Keep as if found', 'accept', 'a'],
];
const conditionButton = (id, label, name, k, attrs) => {
  const command = name === 'accept' ? { do: name, lines: [id] } : { do: name, line: id };
  return button([label, key(k)], name, () => emit('send', command), attrs);
};

/** The buttons that only the chosen row has. */
export function drawButtons(id) {
  clearButtons();
  const l = state.lines.get(id),
    li = rows.get(id);
  if (!l || !li) return;
  const bar = h('div', { class: 'row-buttons', role: 'group', 'aria-label': 'What to do with this line' });
  const add = (label, name, k, fn) =>
    bar.append(button([label, key(k)], name, fn, { class: 'row-button', 'aria-keyshortcuts': k }));
  if (l.state === 'dropped') {
    add('Put it back', 'accept', 'a', () => emit('accept', id));
    add('Play', 'play', 'p', () => playRange(l.line.start, l.line.end));
  } else {
    if (l.state === 'unflagged') add('Mark as reviewed', 'accept', 'a', () => emit('accept', id));
    add('Edit', 'edit', 'e', () => emit('edit', id));
    add('Drop', 'drop', 'd', () => emit('drop', [id]));
    add('Split', 'split', 's', () => emit('split', id));
    add('Move', 'move', 'g', () => emit('move', [id]));
    if (state.marks.size > 1) add('Merge selected', 'merge', 'm', () => emit('merge'));
    if (l.line.only_if && l.state !== 'flagged') {
      for (const [label, name, k] of CONDITION.slice(0, 2))
        bar.append(conditionButton(id, label, name, k, { class: 'row-button' }));
    }
  }
  if (l.line.why?.length) bar.append(why(l.line.why));
  li.append(bar);
}
export const clearButtons = () => document.querySelectorAll('.line > .row-buttons').forEach((el) => el.remove());

/** Where each field of a line comes from. */
const why = (all) =>
  h(
    'details',
    { class: 'why' },
    h('summary', {}, 'Why?'),
    h(
      'dl',
      {},
      all
        .slice(0, 12)
        .map((w) => [
          h('dt', {}, clip(w.field, 30)),
          h('dd', {}, clip(w.rule, 160), w.words && [' — ', h('q', {}, clip(w.words, 120))]),
        ]),
    ),
  );

/** Shows a row as the chosen one. */
export function showChosen(id, focus) {
  const li = rows.get(id);
  li.classList.add('chosen');
  li.setAttribute('aria-current', 'true');
  li.tabIndex = 0;
  li.querySelectorAll('.body [tabindex="-1"]').forEach((el) => el.removeAttribute('tabindex'));
  drawButtons(id);
  if (focus) li.focus({ preventScroll: true });
}

/** Shows a row as not chosen any more. */
export function showUnchosen(id) {
  const li = rows.get(id);
  if (!li) return;
  li.classList.remove('chosen');
  li.removeAttribute('aria-current');
  li.tabIndex = -1;
  li.querySelectorAll('.body button, .body input').forEach((el) => {
    el.tabIndex = -1;
  });
}
