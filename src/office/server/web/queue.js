// The recordings, those with the most to settle first.
import { h, clip, clock, count, when, refill } from './dom.js';
import { get } from './api.js';

let by = localStorage.getItem('eavesdraft.queue') || 'looks';

export const fetchQueue = async () => (await get('/api/queue')).recordings;

export function drawQueue(main, list) {
  const rows = [...list].sort((a, b) => (by === 'name' ? a.name.localeCompare(b.name, undefined, { numeric: true }) : (!!a.settled - !!b.settled) || b.open - a.open || a.name.localeCompare(b.name)));
  const sort = (k, name) => h('button', { type: 'button', 'aria-pressed': String(by === k), 'data-keep': 'sort-' + k, 'data-sort': k, onclick: () => { by = k; localStorage.setItem('eavesdraft.queue', k); drawQueue(main, list); } }, name);
  const open = list.reduce((n, r) => n + (r.settled ? 0 : r.open), 0);
  refill(main, h('div', { class: 'queue' },
    h('div', { class: 'queue-top' }, h('div', {}, h('h1', {}, 'Recordings'), h('p', { class: 'soft' }, `${count(list.length, 'recording')}, ${count(open, 'line')} to settle`)), h('div', { class: 'both', role: 'group', 'aria-label': 'Order' }, sort('looks', 'Most to settle'), sort('name', 'By name'))),
    list.length ? h('ul', { class: 'recordings', role: 'list' }, rows.map((r) => h('li', { 'data-recording': r.id }, h('a', { href: '#/' + encodeURIComponent(r.id), 'data-keep': r.id },
      h('span', { class: 'rec-name' }, clip(r.name, 120)),
      h('span', { class: 'rec-state' }, r.settled ? h('span', { class: 'ok' }, `✓ settled by ${clip(r.settled.who, 40)}, ${when(r.settled.at)}`) : r.open ? h('span', { class: 'todo-n' }, `${r.open} to settle`) : h('span', {}, 'nothing to settle')),
      h('span', { class: 'rec-facts soft' }, [r.length != null ? clock(r.length) : 'text', count(r.lines, 'line'), r.todos ? `${r.todos} to do on site` : null, r.missing ? 'the sound file is missing' : null].filter(Boolean).join(' · ')),
      bar(r))))) : h('p', { class: 'soft' }, 'There are no recordings yet.')));
}

function bar(r) {
  const el = h('span', { class: 'progress', 'aria-hidden': 'true' }, h('span'));
  el.firstChild.style.width = (r.lines ? ((r.lines - r.open) / r.lines) * 100 : 100) + '%';
  return el;
}
