// Where the page starts: the worker, the folder, the sheet.
import { createRoot } from 'react-dom/client';
import { startComputer } from './computing/computer.ts';
import { memory } from './document/browser-memory.ts';
import { Sheet } from './document/sheet.ts';
import { openFolder } from './files/folder.ts';
import './look/tokens.css';
import './look/style.css';
import { App } from './shell/app.tsx';
import { applyTheme, usualTheme } from './shell/theme.ts';

applyTheme(memory.theme() ?? usualTheme());
const sheet = new Sheet(startComputer(), openFolder());
createRoot(document.getElementById('root')!).render(<App sheet={sheet} />);
if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  // Without it the sheet works too, only not when the server is away at the next visit.
  navigator.serviceWorker.register('/sw.js').catch((error: unknown) => console.warn(error));
}
