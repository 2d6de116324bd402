/** The second screen's own page: a code once, then the figure. It runs at a plain http address: no microphone, no storage is needed. */
import '@fontsource-variable/atkinson-hyperlegible-next/index.css';
import '../styles/tokens.css';
import './screen.css';
import '../theme.ts';
import { render } from 'preact';
import { begin } from './follow.ts';
import { Screen } from './Screen.tsx';

const root = document.getElementById('page');
if (root !== null) render(<Screen />, root);
begin();
