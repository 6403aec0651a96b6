// Fits reeds beside the page, so that no key waits for them.
import '../../../shared/without-code-generation.ts';
import { fitAnswers } from './fit-answers.ts';
import type { FitResponse, FitRequest } from './fit-request.ts';

/** What the page is told about a wish. */
export type FitReply = { readonly answer: FitResponse } | { readonly error: unknown };

const scope = self as unknown as {
  onmessage: (event: MessageEvent<FitRequest>) => void;
  postMessage: (reply: FitReply) => void;
};

const answer = fitAnswers();
scope.onmessage = async ({ data }) => {
  try {
    scope.postMessage({ answer: await answer(data) });
  } catch (error) {
    scope.postMessage({ error });
  }
};
