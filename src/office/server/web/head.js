// The head of the page: which recording, how far its review has come, and what can be done with the whole of it.
import { h, $, button, clip, cap, count, refill, when } from './dom.js';
import { state, emit, flaggedCount, countOf } from './state.js';
import { get, recPath, withKey, Gone } from './api.js';
import { signOff, reopen, undo, redo } from './sign_off.js';
import { askName } from './dialogs.js';
import { helpDialog } from './help.js';
import { themeButton } from './theme.js';

const brand = () => h('span', { class: 'brand' }, 'Eavesdraft');
const nameButton = () =>
  button(state.who ? clip(state.who, 24) : 'Your name?', 'who', askName, {
    class: 'quiet-button who',
    'data-keep': 'who',
    title: 'Who is reviewing',
  });

export function drawHead() {
  const r = state.rec,
    themes = themeButton(drawHead);
  if (!state.id || !r) {
    refill($('head'), brand(), h('span', { class: 'grow' }), nameButton(), themes);
    return;
  }
  const flagged = flaggedCount(),
    help = { class: 'icon', 'data-keep': 'help', 'aria-label': 'Help: all shortcuts', title: 'All shortcuts  ?' };
  refill(
    $('head'),
    state.many ? h('a', { href: '#/', class: 'back', 'data-keep': 'back' }, '← All') : brand(),
    h('h1', { class: 'rec-title', title: clip(r.name, 200) }, clip(r.name, 120)),
    h('span', { class: 'state' }, progress(r, flagged)),
    questionsButton(r.questions.length),
    h('span', { class: 'grow' }),
    stepButton('↶', 'undo', r.undo, undo, 'u'),
    stepButton('↷', 'redo', r.redo, redo, 'r'),
    signOffButton(r, flagged),
    documents(),
    nameButton(),
    themes,
    button('?', 'help', helpDialog, help),
  );
  document.title = `${flagged ? flagged + ' to review, ' : ''}${clip(r.name, 60)}`;
  document.body.classList.toggle('is-signed', !!r.signed_off);
  document.body.classList.toggle('of-clips', r.clips.length > 1);
}

/** Who signed it off, or how many lines are left to review. */
function progress(r, flagged) {
  if (r.signed_off) {
    const told = `✓ Signed off by ${clip(r.signed_off.who, 40)}, ${when(r.signed_off.at)}`;
    return h('span', { class: 'ok', 'data-progress': true }, told);
  }
  const reviewed = countOf('reviewed', 'dropped'),
    all = reviewed + flagged;
  const done = all ? Math.round((reviewed / all) * 100) : 100;
  const bar = h('span', { class: 'progress', role: 'img', 'aria-label': `${done}% reviewed` }, h('span'));
  bar.firstChild.style.width = done + '%';
  return [h('span', { 'data-progress': true }, `${flagged} to review`), bar];
}

const questionsButton = (n) =>
  n > 0
  && button(count(n, 'question'), 'questions', () => emit('questions'), {
    class: 'quiet-button',
    'data-keep': 'questions',
    title: 'Questions about the house  q',
  });

function stepButton(label, name, what, fn, k) {
  const told = what ? `${cap(name)}: ${clip(what, 120)}` : `Nothing to ${name}`;
  const attrs = { class: 'icon', 'data-keep': name, 'aria-disabled': what ? null : 'true', 'aria-label': told };
  return button([label], name, fn, { ...attrs, title: what ? `${told}  (${k})` : told });
}

const signOffButton = (r, flagged) =>
  r.signed_off
    ? button('Reopen', 'reopen', reopen, { 'data-keep': 'sign-off' })
    : button('Sign off', 'sign-off', signOff, { class: flagged ? '' : 'main-button', 'data-keep': 'sign-off' });

function documents() {
  const box = h('div', { class: 'menu-list' }, soft('Loading…'));
  const ontoggle = async (e) => {
    if (e.target.open) box.replaceChildren(...(await links()));
  };
  return h('details', { class: 'menu', ontoggle }, h('summary', { 'data-keep': 'docs' }, 'Documents'), box);
}
async function links() {
  try {
    const { documents } = await get(recPath(state.id, '/documents'));
    return documents.length ? documents.map(link) : [soft('None yet')];
  } catch (e) {
    return [soft(e instanceof Gone ? 'Connection lost' : e.message)];
  }
}
const soft = (text) => h('span', { class: 'soft' }, text);
const link = (x) => {
  const href = withKey(/^\/api\//.test(x.href) ? x.href : '#');
  return h('a', { href, target: '_blank', rel: 'noopener' }, clip(x.name, 80));
};
