interface Policy {
  readonly createScriptURL: (url: string) => string;
}

/** Only scripts from where the page itself came from. */
function sameOriginOnly(url: string): string {
  if (new URL(url, document.baseURI).origin !== location.origin) throw new TypeError(`Not ours: ${url}`);
  return url;
}

const { trustedTypes } = globalThis as {
  trustedTypes?: { createPolicy: (name: string, rules: Policy) => Policy };
};
const rules = { createScriptURL: sameOriginOnly };
const policy = trustedTypes?.createPolicy('app-url', rules) ?? rules;

/** The address of a worker as the page's Trusted Types demand it, where the browser knows them. */
export const scriptAddress = (url: string): string => policy.createScriptURL(url);
