// Above the lines: their order, the search, what is selected, and what is filtered.
import { h, $, button, clip, cap, count, key, refill } from './dom.js';
import { state, emit, placeName } from './state.js';
import { drawLines, applyFilter } from './list.js';
import { clearMarks } from './selection.js';
import { acceptMarked, dropDialog, mergeDialog, moveDialog } from './actions.js';
import { closeEdit } from './edit.js';

export function tools() {
  const oninput = () => {
    state.filter.text = search.value;
    emit('filter');
  };
  const search = h('input', {
    type: 'search',
    id: 'search',
    placeholder: 'Search  /',
    'aria-label': 'Search the lines',
    autocomplete: 'off',
    oninput,
  });
  return h(
    'div',
    { class: 'tools', id: 'tools' },
    h(
      'div',
      { class: 'both', role: 'group', 'aria-label': 'Order of the lines' },
      orderButton('review', 'By review'),
      orderButton('place', 'By place'),
    ),
    search,
    h('div', { id: 'marks', class: 'marks', role: 'group', 'aria-label': 'Selected lines' }),
    h('div', { id: 'filter-told', class: 'filter-told' }),
  );
}

const orderButton = (k, name) =>
  button(
    name,
    'order-' + k,
    () => {
      state.order = k;
      localStorage.setItem('eavesdraft.order', k);
      closeEdit();
      drawLines();
      drawFilter();
      drawTools();
    },
    { 'data-order': k },
  );

export function drawTools() {
  for (const b of document.querySelectorAll('[data-order]')) {
    b.setAttribute('aria-pressed', String(b.dataset.order === state.order));
  }
  const n = state.marks.size,
    ids = [...state.marks];
  refill(
    $('marks'),
    n > 0 && [
      h('span', {}, `${n} selected`),
      button(['Merge', key('m')], 'merge', mergeDialog, {
        'data-keep': 'merge',
        'aria-disabled': n < 2 ? 'true' : null,
      }),
      button(['Move', key('g')], 'move', () => moveDialog(ids), { 'data-keep': 'move' }),
      button('Accept', 'accept', acceptMarked, { 'data-keep': 'acc' }),
      button('Drop', 'drop', () => dropDialog(ids), { 'data-keep': 'drop' }),
      button('Clear', 'unmark', clearMarks, { 'data-keep': 'un' }),
    ],
  );
}

export function clearFilter() {
  state.filter.place = null;
  state.filter.text = '';
  if ($('search')) $('search').value = '';
  emit('filter');
}

/** Shows what fits the filter, and tells the filter; returns how many lines are shown. */
export function drawFilter() {
  const n = applyFilter(),
    f = state.filter;
  const parts = [f.place && cap(clip(placeName(f.place), 40)), f.text && `“${clip(f.text, 40)}”`].filter(Boolean);
  refill(
    $('filter-told'),
    parts.length > 0 && [
      h('span', {}, `${parts.join(', ')}: ${count(n, 'line')}`),
      button('Show all', 'clear-filter', clearFilter, { 'data-keep': 'cf' }),
    ],
  );
  return n;
}
