// How lines and places are put into words.
import { clip } from './dom.js';
import { state, lineList } from './state.js';

/** A line in a few words: `gutter, 11 ft, remove and replace`. */
export function sayLine(l) {
  const { item, amount, work } = l.shown;
  return `${clip(item, 60)}, ${amount || 'no number'}${work ? ', ' + work : ''}`;
}

/** What a changed line was drafted as. */
export function draftedAs(l) {
  const d = l.drafted,
    n = l.shown,
    parts = [];
  if (!d) return '';
  if (d.amount !== n.amount || d.unit !== n.unit) parts.push(d.amount || 'no number');
  if (d.item !== n.item) parts.push(clip(d.item, 60));
  if (d.work !== n.work) parts.push(d.work || 'no work');
  if (d.place !== n.place) parts.push(clip(d.place, 60));
  return parts.join(', ');
}

/** What a search looks through. */
export const searchText = (l) =>
  `${l.shown.item} ${l.shown.work} ${l.shown.place} ${l.line.detail || ''} ${l.line.size || ''} ${l.line.quote}`
    .slice(0, 2000)
    .toLowerCase();

/** The sides to choose from, by name. @param {string} none what no side is called */
export const sideOptions = (none = 'not said') => state.catalogue.sides.map((x) => [x, x === 'none' ? none : x]);

export const structures = () => [...new Set(['house', ...lineList().map((l) => l.line.structure)])].slice(0, 40);
