// Fits reeds beside the page, so that no key waits for them.
import '../../../shared/without-code-generation.ts';
import { serveRequests } from '../../workers/server.ts';
import { fitAnswers } from './fit-answers.ts';

serveRequests(fitAnswers());
