// Light or dark: as the system has it, until the reviewer says otherwise.
import { button } from './dom.js';

export function theme(way) {
  if (way) localStorage.setItem('eavesdraft.theme', way);
  const kept = localStorage.getItem('eavesdraft.theme');
  document.documentElement.style.colorScheme = kept || 'light dark';
  return kept || (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light');
}

/** @param {()=>void} redraw draws the button again */
export function themeButton(redraw) {
  const other = theme() === 'dark' ? 'light' : 'dark',
    label = `Switch to ${other}`;
  const turn = () => {
    theme(other);
    redraw();
  };
  const attrs = { class: 'icon', 'data-keep': 'theme', 'aria-label': label, title: label };
  return button(other === 'dark' ? '◐' : '◑', 'theme', turn, attrs);
}
