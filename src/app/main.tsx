/// <reference types="vite-plugin-pwa/client" />
import './styles/tokens.css';
import './styles/base.css';
import './styles/widgets.css';
import './styles/screens.css';
import './styles/backup.css';
import './styles/evidence.css';
import { render } from 'solid-js/web';
import { fetchLive } from './Page.tsx';
import { Shell } from './Shell.tsx';
import { createServices } from './services.ts';
import { watchUpdates } from './update.ts';

const root = document.getElementById('app');
if (root === null) throw new Error('no place to draw');
render(() => <Shell services={createServices()} update={watchUpdates()} />, root);
// Behind the start page: a page that is there is not fetched when a packer waits for it. Where it cannot be had now
// the live page tries again, and says so.
setTimeout(() => void fetchLive().catch(() => undefined), 0);
