import './bench-app.ts';
import { keepForOffline } from './register.ts';

async function offerNewer(use: () => void): Promise<void> {
  await import('../components/keeping/newer-version.ts');
  const notice = document.createElement('bench-newer-version');
  notice.addEventListener('bench-newer-version-use', use);
  document.body.prepend(notice);
}

// The development server has no worker: its files change under the hand.
if (import.meta.env.PROD) addEventListener('load', () => void keepForOffline((use) => void offerNewer(use)));
