import './noEval.ts';
import '@fontsource-variable/atkinson-hyperlegible-next/index.css';
import './styles/tokens.css';
import './styles/page.css';
import './styles/parts.css';
import './styles/stations.css';
import './theme.ts';
import { render } from 'preact';
import { App } from './App.tsx';
import { hearChanges } from './changes.ts';
import { away, unsavedWrites } from './connection.ts';
import { anythingUnsaved } from './draft.ts';

addEventListener('beforeunload', (event) => {
  if (away.value && (unsavedWrites.value > 0 || anythingUnsaved())) event.preventDefault();
});

hearChanges();

const root = document.getElementById('page');
if (root !== null) render(<App />, root);
