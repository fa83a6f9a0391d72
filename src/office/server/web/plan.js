// The house from above, the street at the bottom: how many lines each part has and how many of them need review. A
// part that is pressed filters the lines.
import { h, s, button, cap, count, refill, clip } from './dom.js';
import { state, emit, placeOf, placeName } from './state.js';

const PARTS = {
  grounds: { d: 'M4 4H236V212H4Z M34 34V182H206V34Z', at: [120, 19] },
  rear: { d: 'M34 34H206L166 70H74Z', at: [120, 51] },
  left: { d: 'M34 34L74 70V146L34 182Z', at: [54, 108] },
  right: { d: 'M206 34L166 70V146L206 182Z', at: [186, 108] },
  front: { d: 'M34 182H206L166 146H74Z', at: [120, 163] },
  roof: { d: 'M74 70H166V146H74Z', at: [120, 106] },
};

/** @type {HTMLElement|null} */ let root = null;
export function mountPlan(el) {
  root = el;
}

export function drawPlan() {
  if (!root || !state.rec) return;
  /** @type {Map<string,{lines:number,flagged:number}>} */
  const sums = new Map(Object.keys(PARTS).map((k) => [k, { lines: 0, flagged: 0 }]));
  for (const l of state.lines.values()) {
    if (l.state === 'dropped') continue;
    const p = placeOf(l.line);
    if (!sums.has(p)) sums.set(p, { lines: 0, flagged: 0 });
    const x = sums.get(p);
    x.lines++;
    if (l.state === 'flagged') x.flagged++;
  }
  const svg = s('svg', {
    viewBox: '0 0 240 232',
    class: 'house',
    role: 'group',
    'aria-label': 'House from above, street at bottom',
  });
  const numbers = s('g', { 'aria-hidden': 'true', class: 'numbers' });
  for (const [place, part] of Object.entries(PARTS)) svg.append(drawPart(place, part, sums.get(place), numbers));
  svg.append(numbers);
  svg.append(
    s('path', { d: 'M4 221H92M148 221H236', class: 'street' }),
    s('text', { x: 120, y: 225, class: 'street-name', 'aria-hidden': 'true' }, 'street'),
  );
  const chips = [...sums]
    .filter(([p, n]) => !PARTS[p] && n.lines)
    .map(([p, n]) => {
      const on = state.filter.place === p;
      return h(
        'button',
        {
          type: 'button',
          class: 'chip',
          'aria-pressed': String(on),
          'data-side': p,
          'data-keep': p,
          onclick: () => pick(p),
        },
        h('span', {}, clip(cap(placeName(p)), 40)),
        h('b', {}, String(n.lines), h('span', { class: 'hush' }, ' lines')),
        n.flagged > 0 && h('span', { class: 'n open' }, String(n.flagged), h('span', { class: 'hush' }, ' to review')),
      );
    });
  refill(
    root,
    h('h2', { class: 'small' }, 'Where'),
    svg,
    h(
      'div',
      { class: 'chips' },
      chips,
      state.filter.place
        && button('Show all places', 'all-places', () => pick(null), { class: 'chip clear', 'data-keep': 'clear' }),
    ),
    h('p', { class: 'legend' }, h('span', { class: 'dot' }), 'to review'),
    h('p', { class: 'legend soft' }, 'Not to scale. Street at bottom.'),
  );
}

// The numbers lie over the parts, not in them: a part's own name then says all, once.
function drawPart(place, part, n, numbers) {
  const on = state.filter.place === place,
    [x, y] = part.at,
    tall = place === 'left' || place === 'right';
  const g = s('g', {
    role: 'button',
    tabindex: '0',
    class: 'part part-' + place + (on ? ' on' : ''),
    'aria-pressed': String(on),
    'data-side': place,
    'data-keep': place,
    'aria-label': `${cap(placeName(place))}: ${count(n.lines, 'line')}, ${n.flagged} to review`,
    onclick: () => pick(place),
    onkeydown: (e) => {
      if (e.key === 'Enter' || e.key === ' ') {
        e.preventDefault();
        e.stopPropagation();
        pick(place);
      }
    },
  });
  g.append(s('path', { d: part.d, 'fill-rule': 'evenodd' }));
  // The name and the numbers: one under the other on the narrow sides, else in a row.
  const row = !tall && place !== 'roof',
    w = 8 * String(n.lines).length,
    bw = n.flagged ? 7 * String(n.flagged).length + 9 : 0;
  g.append(s('text', { x: row ? x - 8 : x, y: row ? y + 4 : y - 12, class: 'name' + (row ? ' end' : '') }, cap(place)));
  const nx = row ? x + w / 2 : tall ? x : x - (bw ? bw / 2 + 2 : 0),
    ny = row ? y : y + 2;
  numbers.append(s('text', { x: nx, y: ny + 4, class: 'num' }, String(n.lines)));
  if (n.flagged) {
    const bx = tall ? x : nx + w / 2 + 4 + bw / 2,
      by = tall ? y + 20 : ny;
    numbers.append(
      s('rect', { x: bx - bw / 2, y: by - 8, width: bw, height: 16, rx: 8, class: 'badge' }),
      s('text', { x: bx, y: by + 4, class: 'badge-n' }, String(n.flagged)),
    );
  }
  return g;
}

export function pick(place) {
  state.filter.place = state.filter.place === place ? null : place;
  emit('filter');
}
