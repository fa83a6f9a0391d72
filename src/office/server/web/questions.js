// Questions about the whole house: what may be counted twice, what was not mentioned, numbers out of the ordinary. They
// change nothing by themselves; an answer is a change like any other.
import { h, $, button, cap, clip, refill } from './dom.js';
import { state, emit } from './state.js';
import { send, locked } from './commands.js';
import { sayLine } from './words.js';
import { playRange } from './player.js';

/** @type {HTMLElement|null} */ let panel = null;

export function drawQuestions(el) {
  panel = el;
  const list = state.rec.questions;
  refill(
    panel,
    list.length > 0
      && h(
        'section',
        { class: 'part' },
        h('h2', { class: 'small' }, `Questions about the house (${list.length})`),
        h('p', { class: 'soft' }, 'Nothing changes until you answer. Open questions are listed with the scope.'),
        h('ul', { role: 'list' }, list.slice(0, 100).map(drawQuestion)),
      ),
    !list.length && h('p', { class: 'soft empty' }, 'No questions about the house.'),
  );
}

/** @param {import('./state.js').Question} q */
function drawQuestion(q) {
  const id = 'ask-' + q.id;
  return h(
    'li',
    { 'data-question': q.id },
    h(
      'div',
      { role: 'group', 'aria-labelledby': id },
      h('p', { class: 'asks', id }, clip(q.asks, 600)),
      q.lines.length > 0
        && h(
          'ul',
          { class: 'about', role: 'list', 'aria-label': 'The lines it is about' },
          q.lines
            .slice(0, 40)
            .map((x) => state.lines.get(x))
            .filter(Boolean)
            .map((l) => drawLine(q, l)),
        ),
      q.missing.length > 0
        && h(
          'ul',
          { class: 'missing', role: 'list' },
          q.missing.map((m) =>
            h(
              'li',
              {},
              h('span', {}, clip(m.name, 80)),
              h(
                'span',
                { class: 'choices' },
                m.answers.map((a) =>
                  answer(q, a, `${cap(a.label)}: ${clip(m.name, 80)}, ${clip(q.place, 40)}`, m.item),
                ),
              ),
            ),
          ),
        ),
      h(
        'div',
        { class: 'choices' },
        q.answers.map((a) => answer(q, a)),
      ),
      h('p', { class: 'soft ground' }, `${cap(clip(q.rule, 240))}. ${ground(q.source)}`),
    ),
  );
}

/** What a question rests on. */
const ground = (source) =>
  source.startsWith('common practice') ? 'Common practice.' : `Source: ${clip(source, 160)}.`;

/** A line, as a link that chooses it and plays it. */
function drawLine(q, l) {
  return h(
    'li',
    {},
    button(
      [sayLine(l), h('span', { class: 'soft' }, clip(l.shown.place, 40))],
      'show',
      () => {
        emit('show-line', l.id);
        if (l.line.start != null) playRange(l.line.start, l.line.end);
      },
      { class: 'quiet-button', 'data-keep': `${q.id} ${l.id}` },
    ),
  );
}

function answer(q, a, name = null, item = '') {
  const text = name ? cap(a.label) : [cap(clip(a.label, 60)), h('small', {}, clip(a.hint, 120))];
  return button(text, 'answer', () => give(q, a.command), {
    class: 'choice',
    'aria-label': name,
    title: name ? a.hint : null,
    'data-answer': `${item} ${a.label}`.trim(),
    'data-keep': `${q.id} ${item} ${a.label}`,
  });
}

async function give(q, command) {
  if (locked()) return;
  const at = [...panel.querySelectorAll('[data-question]')].findIndex((li) => li.dataset.question === q.id);
  const seen = Object.fromEntries(
    q.lines.filter((x) => state.lines.has(x)).map((x) => [x, state.lines.get(x).version]),
  );
  const done = await send(command, { stay: true, seen });
  if (done.ok && !panel.contains(document.activeElement)) goTo(at);
}

/** The focus goes on to the question that came up in this one's place, or back to the tab. */
function goTo(at) {
  const all = panel.querySelectorAll('[data-question]'),
    li = all[Math.min(at, all.length - 1)];
  (li?.querySelector('[data-do=answer]') || $('tab-ask'))?.focus();
}

/** The first question, with the focus on its first answer. */
export const toQuestions = () => goTo(0);
