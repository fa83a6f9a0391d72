// Pieces that the tabs beside the lines share.
import { h, button, clip } from './dom.js';
import { shownTime, toldTime } from './state.js';
import { playRange } from './player.js';

/** A list under a heading; nothing where it is empty. */
export const part = (name, hint, list, each) =>
  list.length > 0
  && h(
    'section',
    { class: 'part' },
    h('h2', { class: 'small' }, `${name} (${list.length})`),
    hint && h('p', { class: 'soft' }, hint),
    h('ul', { role: 'list' }, list.slice(0, 400).map(each)),
  );

/** A button with a moment, which plays what was said there. */
export const playFromButton = (start, end) =>
  start != null
  && button(shownTime(start), 'play', () => playRange(start, end), {
    class: 'time',
    'aria-label': `Play from ${toldTime(start)}`,
  });

/** The words that something comes from, to be played. */
export const quoteOf = (x) =>
  h('p', { class: 'quote-row' }, playFromButton(x.start, x.end), h('q', { class: 'quote' }, clip(x.quote, 260)));
