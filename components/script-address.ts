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
let policy: Policy | undefined;

/**
 * The address of a worker as the page's Trusted Types demand it, where the browser knows them; the policy is named
 * `hundredths`.
 *
 * @throws TypeError for a script from elsewhere, and where the page allows no policy of that name.
 */
export function scriptAddress(url: string): string {
  policy ??= trustedTypes?.createPolicy('hundredths', rules) ?? rules;
  return policy.createScriptURL(url);
}
