// The list of keys.
import { h } from './dom.js';
import { dialog } from './dialogs.js';

const KEYS = [
  [
    'Going through',
    [
      ['j or ↓', 'next line'],
      ['k or ↑', 'previous line'],
      ['n', 'next line that needs review'],
      ['q', 'questions about the house'],
      ['/', 'search'],
      ['Esc', 'close, or clear selection and filters'],
    ],
  ],
  [
    'Reviewing the chosen line',
    [
      ['Enter or a', 'keep as drafted'],
      ['1 to 9', 'pick that choice'],
      ['e', 'edit every field'],
      ['d', 'drop, with a reason'],
      ['s', 'split'],
      ['g', 'move to another side'],
      ['y', 'include an “if found”'],
      ['Shift N', 'leave it out'],
    ],
  ],
  [
    'Several lines',
    [
      ['x', 'select or deselect'],
      ['m', 'merge what is selected'],
      ['g', 'move what is selected'],
    ],
  ],
  [
    'Sound',
    [
      ['p or Space', 'play the line, or stop'],
      ['l', 'repeat the line'],
      ['[ and ]', 'slower, faster'],
    ],
  ],
  [
    'Words',
    [
      ['arrows', 'go from word to word'],
      ['Shift with arrows', 'select several words'],
      ['Enter', 'play from the word'],
      ['+', 'add a line from the selected words'],
    ],
  ],
  [
    'Undo, redo',
    [
      ['u', 'undo'],
      ['r or Shift U', 'redo'],
      ['?', 'this list'],
    ],
  ],
];

export const keysOn = () => localStorage.getItem('eavesdraft.keys') !== 'off';
const turn = (on) => localStorage.setItem('eavesdraft.keys', on ? 'on' : 'off');

export function helpDialog() {
  const box = { type: 'checkbox', 'data-first': true, '.checked': keysOn(), onchange: (e) => turn(e.target.checked) };
  return dialog({
    title: 'Keyboard shortcuts',
    wide: true,
    cancel: 'Close',
    data: { 'data-help': true },
    body: [
      h(
        'div',
        { class: 'keys' },
        KEYS.map(([name, list]) => section(name, list)),
      ),
      h(
        'p',
        { class: 'soft' },
        'The buttons of a row do the same as the keys. Words with a dotted underline were hard to hear.',
      ),
      h(
        'label',
        { class: 'radio' },
        h('input', box),
        h('span', {}, 'Use single-key shortcuts (turn this off if you dictate or use a screen reader’s own keys)'),
      ),
    ],
  });
}

const section = (name, list) =>
  h(
    'section',
    {},
    h('h3', {}, name),
    h(
      'dl',
      {},
      list.map(([keys, what]) => h('div', {}, h('dt', {}, keyNames(keys)), h('dd', {}, what))),
    ),
  );

/** The keys of an entry, each as a key; the words between them stay words. */
const keyNames = (keys) =>
  keys.split(/ (or|to|and|with) /).map((x) => (/^(or|to|and|with)$/.test(x) ? ` ${x} ` : h('kbd', {}, x)));
