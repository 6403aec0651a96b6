// Puts small pieces of a second copy together, away from the page's own thread.
import '../../../shared/without-code-generation.ts';
import type { Id } from '../../../shared/ids.ts';
import { serveRequests } from '../../workers/server.ts';
import { openBrowserMirror } from './mirror.ts';

serveRequests(async (deviceId: Id) => (await openBrowserMirror())?.compact(deviceId));
