// What was done, the latest first, and what the office taught the program.
import { h, button, clip, refill, when } from './dom.js';
import { state, emit, itemName } from './state.js';
import { get, recPath } from './api.js';
import { remembered, takeBack } from './teach.js';

/** The most that is listed. */
const MOST = 300;

let asked = 0;
export async function drawHistory(panel) {
  const mine = ++asked,
    of = state.id;
  let history, own;
  try {
    [history, own] = await Promise.all([get(recPath(of, '/events')), remembered()]);
  } catch {
    return;
  }
  if (mine !== asked || of !== state.id) return;
  const list = history.events.slice(-MOST).reverse();
  refill(
    panel,
    own
      && section(
        'Own words',
        own.remembered.length > 0 && h('ul', { role: 'list' }, own.remembered.map(word)),
        'None yet.',
      ),
    section(
      'Changes',
      list.length > 0 && h('ol', { class: 'history', role: 'list' }, list.map(entry)),
      'No changes yet.',
    ),
  );
}

const section = (name, list, none) =>
  h('section', { class: 'part' }, h('h2', { class: 'small' }, name), list || h('p', { class: 'soft empty' }, none));

function word(w) {
  const about = { 'data-keep': 'tb' + w.id, 'aria-label': `Remove “${clip(w.phrase, 60)}”` };
  return h(
    'li',
    { class: 'taught' },
    h(
      'span',
      {},
      h('q', {}, clip(w.phrase, 80)),
      ' means ',
      h('b', {}, clip(itemName(w.item), 60)),
      h('span', { class: 'soft' }, ` ${clip(w.who, 40)}, ${when(w.at)}`),
    ),
    button('Remove', 'take-back', () => takeBack(w.id), about),
  );
}

function entry(e) {
  const line = e.lines.find((x) => state.lines.has(x));
  const about = {
    class: 'mini',
    'data-keep': 'h' + e.number,
    'aria-label': `Show the line of: ${clip(e.summary, 60)}`,
  };
  return h(
    'li',
    { class: e.undone ? 'undone' : '' },
    h('span', { class: 'soft' }, when(e.at)),
    h('span', {}, h('b', {}, clip(e.who, 40)), ' ', clip(e.summary, 200), e.undone && ' (undone)'),
    line && button('Show', 'show', () => emit('show-line', line), about),
  );
}
