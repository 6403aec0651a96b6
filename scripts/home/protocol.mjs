// The part of CouchDB's protocol that the bench uses, over one database. Source: Apache CouchDB 3 documentation, "API
// Reference" and "Replication Protocol".
import { timingSafeEqual, createHash } from 'node:crypto';
import { validateCarried } from './validate.mjs';

const MAX_BODY = 16e6;
const JSON_TYPE = { 'Content-Type': 'application/json' };

/** An answer that is no success. */
class Refusal extends Error {
  constructor(status, error, reason) {
    super(reason);
    this.status = status;
    this.answer = { error, reason };
  }
}

const digest = (text) => createHash('sha256').update(text).digest();

/** Who asks, by name and password. */
function userOf({ authorization = '' }, users) {
  const [, text = ''] = /^Basic (.+)$/.exec(authorization) ?? [];
  const [name, ...password] = Buffer.from(text, 'base64').toString('utf8').split(':');
  const user = users.find((one) => one.name === name);
  if (user && timingSafeEqual(digest(user.password), digest(password.join(':')))) return user;
  throw new Refusal(401, 'unauthorized', 'Name or password is incorrect.');
}

async function bodyOf(request) {
  const parts = [];
  let length = 0;
  for await (const part of request) {
    length += part.length;
    if (length > MAX_BODY) throw new Refusal(413, 'too_large', 'The request is too large.');
    parts.push(part);
  }
  try {
    return JSON.parse(Buffer.concat(parts).toString('utf8') || '{}');
  } catch {
    throw new Refusal(400, 'bad_request', 'This is no JSON.');
  }
}

function found(value) {
  if (value === undefined) throw new Refusal(404, 'not_found', 'missing');
  return value;
}

/** Changes now, or once there are some. */
async function changes({ replica, query, response }) {
  const asked = {
    since:
      query.get('since') === 'now' ? replica.sequence : Number.parseInt(query.get('since') ?? '0', 10) || 0,
    limit: Number(query.get('limit') ?? Infinity),
    docs: query.get('include_docs') === 'true',
    conflicts: query.get('conflicts') === 'true',
  };
  const now = () => replica.changes(asked);
  if (query.get('feed') !== 'longpoll' || replica.sequence > asked.since) return now();
  const gone = new AbortController();
  response.on('close', () => gone.abort());
  response.writeHead(200, JSON_TYPE);
  const beat = setInterval(() => response.write('\n'), Number(query.get('heartbeat')) || 60_000);
  await replica.waitForChange(gone.signal);
  clearInterval(beat);
  return now();
}

const ANSWERS = {
  'GET ': ({ replica, name }) => ({
    db_name: name,
    doc_count: replica.count,
    update_seq: replica.sequence,
    sizes: {},
    instance_start_time: '0',
  }),
  'GET _changes': changes,
  'POST _all_docs': ({ replica, body }) => ({
    rows: body.keys.map((key) => {
      const [leaf] = replica.leavesOf(key);
      if (!leaf) return { key, error: 'not_found' };
      return { id: key, key, value: { rev: leaf.rev, ...(leaf.deleted && { deleted: true }) } };
    }),
  }),
  'POST _bulk_docs': ({ replica, body, check }) => replica.write(body.docs, check, body.new_edits ?? true),
};

function ofLocal({ replica, method, id, body, response }) {
  if (method === 'GET') return found(replica.readLocal(id));
  const answer = replica.writeLocal(id, body);
  if (answer.error) throw new Refusal(409, answer.error, answer.reason);
  response.statusCode = 201;
  return answer;
}

function ofDocument({ replica, query, parts, response }) {
  const [id, picture] = parts;
  if (picture === undefined) return found(replica.read(id, query.get('rev') ?? undefined));
  response.setHeader('Content-Type', 'application/octet-stream');
  return found(replica.picture(id, picture));
}

async function answerTo(request, response, { replica, name, users }) {
  const url = new URL(request.url, 'http://localhost');
  const [database, ...parts] = url.pathname.slice(1).split('/').map(decodeURIComponent);
  const user = userOf(request.headers, users);
  if (database !== name) throw new Refusal(404, 'not_found', 'Database does not exist.');
  const body = request.method === 'GET' ? undefined : await bodyOf(request);
  const context = { db: name, name: user.name, roles: user.roles ?? [] };
  const check = (doc, old) => validateCarried(doc, old, context, {});
  const asked = {
    replica,
    name,
    parts,
    id: parts.join('/'),
    method: request.method,
    query: url.searchParams,
    body,
    check,
    response,
  };
  const answer = ANSWERS[`${request.method} ${parts.join('/')}`];
  if (answer) return answer(asked);
  if (parts[0] === '_local') return ofLocal(asked);
  if (request.method === 'GET' && !parts[0].startsWith('_')) return ofDocument(asked);
  throw new Refusal(405, 'method_not_allowed', 'The stand-in does not answer this.');
}

/** What lets pages of some other origins ask; credentials of the browser's own are never taken. */
function allow(request, response, origins) {
  const { origin } = request.headers;
  if (!origin || !origins.includes(origin)) return;
  response.setHeader('Access-Control-Allow-Origin', origin);
  response.setHeader('Vary', 'Origin');
  response.setHeader('Access-Control-Allow-Headers', 'authorization, content-type, accept');
  response.setHeader('Access-Control-Allow-Methods', 'GET, POST, PUT');
}

/**
 * Answers requests for one shared case.
 *
 * @param {{replica: import('./replica.mjs').Replica, name: string, origins?: readonly string[],
 *   users: readonly {name: string, password: string, roles?: readonly string[]}[]}} of
 */
export function protocolOf({ origins = [], ...of }) {
  return async (request, response) => {
    allow(request, response, origins);
    response.setHeader('Cache-Control', 'no-store');
    if (request.method === 'OPTIONS') return response.writeHead(204).end();
    try {
      const answer = await answerTo(request, response, of);
      if (Buffer.isBuffer(answer)) return response.end(answer);
      if (!response.headersSent) response.setHeader('Content-Type', 'application/json');
      response.end(JSON.stringify(answer));
    } catch (error) {
      if (response.headersSent) return response.destroy();
      const { status = 500, answer = { error: 'internal', reason: 'The stand-in has failed.' } } = error;
      response.writeHead(status, JSON_TYPE).end(JSON.stringify(answer));
    }
  };
}
