// The recordings, those with the most to review first.
import { h, clip, clock, count, when, refill } from './dom.js';
import { get } from './api.js';

let by = localStorage.getItem('eavesdraft.queue') === 'name' ? 'name' : 'review';

export const fetchQueue = async () => (await get('/api/queue')).recordings;

const byName = (a, b) => a.name.localeCompare(b.name, undefined, { numeric: true });
const byReview = (a, b) => !!a.signed_off - !!b.signed_off || b.flagged - a.flagged || byName(a, b);

export function drawQueue(main, list) {
  const rows = [...list].sort(by === 'name' ? byName : byReview);
  const flagged = list.reduce((n, r) => n + (r.signed_off ? 0 : r.flagged), 0);
  const sort = (k, name) => {
    const onclick = () => {
      by = k;
      localStorage.setItem('eavesdraft.queue', k);
      drawQueue(main, list);
    };
    const attrs = { 'aria-pressed': String(by === k), 'data-keep': 'sort-' + k, 'data-sort': k, onclick };
    return h('button', { type: 'button', ...attrs }, name);
  };
  const told = `${count(list.length, 'recording')}, ${count(flagged, 'line')} to review`;
  const orders = { class: 'both', role: 'group', 'aria-label': 'Order' };
  refill(
    main,
    h(
      'div',
      { class: 'queue' },
      h(
        'div',
        { class: 'queue-top' },
        h('div', {}, h('h1', {}, 'Recordings'), h('p', { class: 'soft' }, told)),
        h('div', orders, sort('review', 'Most to review'), sort('name', 'By name')),
      ),
      list.length
        ? h('ul', { class: 'recordings', role: 'list' }, rows.map(row))
        : h('p', { class: 'soft' }, 'There are no recordings yet.'),
    ),
  );
}

function row(r) {
  const needed = r.follow_ups ? `${r.follow_ups} still needed on site` : null;
  const length = r.length != null ? clock(r.length) : 'text';
  const facts = [length, count(r.lines, 'line'), needed, r.missing ? 'the sound file is missing' : null];
  return h(
    'li',
    { 'data-recording': r.id },
    h(
      'a',
      { href: '#/' + encodeURIComponent(r.id), 'data-keep': r.id },
      h('span', { class: 'rec-name' }, clip(r.name, 120)),
      h('span', { class: 'rec-state' }, stateOf(r)),
      h('span', { class: 'rec-facts soft' }, facts.filter(Boolean).join(' · ')),
    ),
  );
}

function stateOf(r) {
  if (r.signed_off) {
    return h('span', { class: 'ok' }, `✓ signed off by ${clip(r.signed_off.who, 40)}, ${when(r.signed_off.at)}`);
  }
  return r.flagged ? h('span', { class: 'to-review' }, `${r.flagged} to review`) : h('span', {}, 'nothing to review');
}
