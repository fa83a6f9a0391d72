// Own words: what a reviewer calls a thing can be remembered, after seeing what it would change elsewhere.
import { h, button, clip, $, tell } from './dom.js';
import { state, emit, itemName } from './state.js';
import { post, call } from './api.js';
import { dialog, askName } from './dialogs.js';

/** What is remembered; null where the office has no rules of its own to keep words in. */
export async function remembered() {
  const own = await call('GET', '/api/teach');
  return own.can ? own : null;
}

/** After the item of an unsure line was set by hand. */
export function offerWords(command, before, answer) {
  if (command.do !== 'change' || !command.fields?.item) return;
  const was = before.get(command.line),
    now = answer.lines?.find((l) => l.id === command.line);
  if (!was || !now?.line.item || !was.line.flags.some((f) => f === 'sounds-like' || f === 'not-in-catalogue')) return;
  const phrase = was.line.said;
  if (!phrase || phrase.length > 120 || phrase.toLowerCase() === now.shown.item.toLowerCase()) return;
  remembered().then(
    (own) => {
      if (own) offer(phrase, now.line.item);
    },
    () => {
      /* not now */
    },
  );
}

function offer(phrase, item) {
  const box = $('offer');
  box.replaceChildren(
    h('span', {}, `Remember that “${clip(phrase, 60)}” means ${clip(itemName(item), 60)}?`),
    button('See what would change', 'teach', () => tryWords(phrase, item), { class: 'main-button' }),
    button('No, thanks', 'teach-no', clear),
  );
  box.hidden = false;
}
export function clear() {
  const box = $('offer'),
    had = box.contains(document.activeElement);
  box.hidden = true;
  box.replaceChildren();
  if (had) document.querySelector('.line.chosen')?.focus({ preventScroll: true });
}

async function tryWords(phrase, item) {
  if (!state.who && !(await askName())) return;
  const path = '/api/teach',
    name = clip(itemName(item), 60);
  try {
    const t = await post(path, { phrase, item, who: state.who, try: true });
    const yes = await dialog({
      title: `“${clip(phrase, 60)}” is ${name}`,
      wide: true,
      body: [
        h(
          'p',
          {},
          t.changes.length
            ? 'These open drafts would change:'
            : 'No other draft would change. It applies to drafts from now on.',
        ),
        t.changes.length > 0
          && h(
            'ul',
            { class: 'changes' },
            t.changes
              .slice(0, 100)
              .map((c) =>
                h(
                  'li',
                  {},
                  h('b', {}, clip(c.name, 60)),
                  h('span', {}, h('s', {}, clip(c.before, 120)), ' → ', clip(c.after, 120)),
                ),
              ),
          ),
      ],
      buttons: [['Remember', 'teach-save', 'yes']],
    });
    if (yes !== 'yes') return;
    await post(path, { phrase, item, who: state.who, try: false });
    clear();
    tell(`“${clip(phrase, 60)}” will be read as ${name}.`);
    emit('taught');
  } catch (e) {
    tell(e.message, 'bad');
  }
}

export async function takeBack(id) {
  try {
    await call('DELETE', '/api/teach/' + encodeURIComponent(id));
    tell('Removed.');
    emit('taught');
  } catch (e) {
    tell(e.message, 'bad');
  }
}
