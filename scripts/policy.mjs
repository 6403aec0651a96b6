// What the page may do, in one place: the built page carries it, and the server sends it as headers.

/** Nothing inline, nothing from elsewhere. */
const SOURCES = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self' data: blob:",
  'font-src': "'self'",
  'connect-src': "'self'",
  'worker-src': "'self'",
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'require-trusted-types-for': "'script'",
  'trusted-types': 'lit-html hundredths',
};

const policyText = (sources) =>
  Object.entries(sources)
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');

/** As a meta element carries it: which has no say about who frames the page. */
export const STRICT_POLICY = policyText(SOURCES);

/**
 * That of the bench itself, which says nothing of what may be asked: its first script adds that, itself and the one
 * address of a shared case, before anything else loads (demo/public/configure.js). Policies only ever narrow each other,
 * so that an address which the maker enters later could not be allowed any more. What would fall back on the default
 * stands here by name.
 */
const { 'default-src': _, 'connect-src': __, ...ASKED_LATER } = SOURCES;
const BENCH_SOURCES = {
  ...ASKED_LATER,
  'object-src': "'none'",
  'media-src': "'none'",
  'frame-src': "'none'",
};
export const PAGE_POLICY = policyText(BENCH_SOURCES);

/** What the bench uses: gauge on a cable, crow, screen that stays awake, pasting and copying. */
const OWN_FEATURES = [
  'clipboard-read',
  'clipboard-write',
  'fullscreen',
  'microphone',
  'screen-wake-lock',
  'serial',
];
/** What engines know and the bench has no use for; a name that an engine does not know is a word in its console. */
const NO_FEATURES = [
  'accelerometer',
  'autoplay',
  'camera',
  'display-capture',
  'encrypted-media',
  'gamepad',
  'geolocation',
  'gyroscope',
  'hid',
  'idle-detection',
  'keyboard-map',
  'local-fonts',
  'magnetometer',
  'midi',
  'payment',
  'picture-in-picture',
  'publickey-credentials-create',
  'publickey-credentials-get',
  'storage-access',
  'sync-xhr',
  'usb',
  'window-management',
  'xr-spatial-tracking',
];

const IS_BENCH = /(^|\/)(index\.html)?$/;
const NO_FRAME = { 'frame-ancestors': "'none'" };

/** Headers of what is served at a path. */
export const headersOf = (path) => ({
  ...HEADERS,
  'Content-Security-Policy': policyText({ ...(IS_BENCH.test(path) ? BENCH_SOURCES : SOURCES), ...NO_FRAME }),
});

const HEADERS = {
  'Permissions-Policy': [
    ...OWN_FEATURES.map((name) => `${name}=(self)`),
    ...NO_FEATURES.map((name) => `${name}=()`),
  ].join(', '),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

/** Names of built files that change with their content. */
const HASHED = /^\/?assets\//;

/** How long a file may be kept by a browser: for ever where its name tells its content, else not at all. */
export const cacheControl = (path) =>
  HASHED.test(path) ? 'public, max-age=31536000, immutable' : 'no-store';

/** @param {string} name of a built file, relative to the page */
export const isHashed = (name) => HASHED.test(name);
