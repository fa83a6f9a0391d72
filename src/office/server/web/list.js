// The list of lines: in groups, in order, filtered. A row is redrawn only when its line changed.
import { h, cap, clip } from './dom.js';
import { state, placeOf, placeName } from './state.js';
import { searchText } from './words.js';
import { rowOf, forgetRow, forgetRows, drawRow, fillRow, drawButtons, showChosen } from './rows.js';

/** @type {HTMLElement|null} */ let root = null;
/** @type {Map<string, {box:HTMLElement,list:HTMLElement,head:HTMLElement,name:string}>} */ const groups = new Map();
let ranks = new Map();

export function mountList(el) {
  root = el;
}

function groupKey(l) {
  if (l.state === 'dropped' || state.order === 'review') return l.state;
  return 'place ' + placeOf(l.line);
}
const GROUP_NAMES = { flagged: 'Needs review', unflagged: 'Not flagged', reviewed: 'Reviewed', dropped: 'Dropped' };
const REVIEW_ORDER = ['flagged', 'unflagged', 'reviewed'];
const PLACE_ORDER = ['front', 'right', 'rear', 'left', 'roof', 'grounds', 'none'].map((p) => 'place ' + p);

const rank = () => {
  ranks = new Map([...state.lines.keys()].map((id, i) => [id, i]));
};

/** Draws the whole list again: another recording or another order. */
export function drawLines() {
  const had = root.contains(document.activeElement);
  forgetRows();
  groups.clear();
  rank();
  const list = document.createDocumentFragment();
  for (const k of groupOrder(new Set([...state.lines.values()].map(groupKey)))) list.append(makeGroup(k).box);
  for (const l of state.lines.values()) groups.get(groupKey(l)).list.append(drawRow(l));
  root.replaceChildren(list);
  countGroups();
  applyFilter();
  if (state.chosen && rowOf(state.chosen)) showChosen(state.chosen, had);
}

/** The groups that there are, in order; what was dropped comes last. */
function groupOrder(keys) {
  const first = state.order === 'review' ? REVIEW_ORDER : PLACE_ORDER;
  const others = [...keys].filter((k) => !first.includes(k) && k !== 'dropped');
  return [...first, ...others, 'dropped'].filter((k) => keys.has(k));
}

function makeGroup(k) {
  const name = GROUP_NAMES[k] || cap(clip(placeName(k.slice(6)), 60));
  const head = h('span', { class: 'sum' });
  const list = h('ul', { class: 'rows', role: 'list', 'aria-label': name });
  const title = [h('span', { class: 'group-name' }, name), head];
  const box =
    k === 'dropped'
      ? h('details', { class: 'group fold', 'data-group': k }, h('summary', {}, title), list)
      : h('section', { class: 'group', 'data-group': k }, h('h2', { class: 'group-head' }, title), list);
  const g = { box, list, head, name };
  groups.set(k, g);
  return g;
}

/** Redraws the rows of these lines only, and puts them where they now belong. */
export function refreshLines(ids, own = false) {
  const inRow = document.activeElement?.closest?.('.line')?.dataset.line;
  const near = own ? null : rowInView(ids);
  rank();
  ids.forEach(refreshLine);
  countGroups();
  applyFilter();
  const chosen = state.chosen && rowOf(state.chosen);
  if (chosen) drawButtons(state.chosen);
  if (chosen && inRow === state.chosen && !chosen.contains(document.activeElement))
    chosen.focus({ preventScroll: true });
  hold(near);
}

function refreshLine(id) {
  const l = state.lines.get(id),
    old = rowOf(id);
  if (!l) {
    old?.remove();
    forgetRow(id);
    if (state.chosen === id) state.chosen = null;
  } else if (!old) {
    place(drawRow(l), l);
  } else {
    const typing = old.querySelector('form');
    fillRow(old, l);
    if (!typing) place(old, l);
  }
}

/** Puts a row into its group, in the order of the draft. */
function place(li, l) {
  const k = groupKey(l);
  if (!groups.has(k)) insertGroup(k);
  const list = groups.get(k).list,
    own = ranks.get(l.id);
  let next = list.lastElementChild,
    after = null;
  while (next && (next === li || ranks.get(next.dataset.line) > own)) {
    if (next !== li) after = next;
    next = next.previousElementSibling;
  }
  if (li.parentElement !== list || li.nextElementSibling !== after) list.insertBefore(li, after);
}

function insertGroup(k) {
  const { box } = makeGroup(k),
    order = groupOrder(new Set(groups.keys()));
  const next = order
    .slice(order.indexOf(k) + 1)
    .map((x) => groups.get(x).box)
    .find((x) => x.isConnected);
  root.insertBefore(box, next ?? null);
}

// Rows that others' changes move above the reader must not push what she reads: one row in view is held where it was.
function rowInView(ids) {
  const r = root.getBoundingClientRect();
  const fits = (li) => {
    if (!li || li.hidden || ids.includes(li.dataset.line)) return false;
    const { top, bottom } = li.getBoundingClientRect();
    return bottom > 60 && top < innerHeight;
  };
  const mid = document.elementFromPoint(r.left + 30, Math.max(r.top, 0) + innerHeight * 0.3)?.closest('.line');
  const li = [rowOf(state.chosen), mid].find(fits);
  return li && { li, y: li.getBoundingClientRect().top };
}
function hold(near) {
  if (!near?.li.isConnected || near.li.hidden) return;
  const moved = near.li.getBoundingClientRect().top - near.y;
  if (Math.abs(moved) <= 1 || Math.abs(moved) >= 2000) return;
  const own = getComputedStyle(root.parentElement).overflowY === 'auto';
  (own ? root.parentElement : document.scrollingElement).scrollTop += moved;
}

function countGroups() {
  for (const [k, g] of groups) {
    const all = [...g.list.children],
      flagged = all.filter((li) => li.classList.contains('is-flagged')).length;
    g.head.textContent = k === 'flagged' || !flagged ? ` ${all.length}` : ` ${all.length}, ${flagged} to review`;
  }
}

/** Shows the lines that fit the filter; returns how many those are. */
export function applyFilter() {
  const text = state.filter.text.trim().toLowerCase(),
    turn = [];
  let shown = 0;
  for (const [k, g] of groups) {
    let n = 0;
    for (const li of g.list.children) {
      const l = state.lines.get(li.dataset.line);
      const here = !state.filter.place || placeOf(l.line) === state.filter.place;
      const hit = here && (!text || searchText(l).includes(text));
      if (li.hidden === hit) turn.push(li);
      if (hit) n++;
    }
    g.box.hidden = n === 0;
    if (k !== 'dropped') shown += n;
  }
  turnOver(turn);
  root.classList.toggle('none-shown', shown === 0);
  return shown;
}

/** Hides rows that are shown, and shows those that are hidden. */
function turnOver(turn) {
  // Taking hundreds of rows out one by one costs a second; out of a list that is not laid out it costs nothing.
  const big = turn.length > 100,
    at = big ? root.parentElement.scrollTop : 0;
  if (big) {
    root.style.display = 'none';
    void getComputedStyle(root).display;
  }
  for (const li of turn) li.hidden = !li.hidden;
  if (big) {
    root.style.display = '';
    root.parentElement.scrollTop = at;
  }
}

/** The ids as they stand on the page, without what is filtered or folded away. */
export function visibleIds() {
  const out = [];
  for (const box of root.children) {
    if (box.hidden || (box.tagName === 'DETAILS' && !box.open)) continue;
    for (const li of box.querySelector('ul').children) if (!li.hidden) out.push(li.dataset.line);
  }
  return out;
}
