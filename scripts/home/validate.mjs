// What a shared case takes in. Each function stands by itself, in the language that CouchDB 3 runs such functions in
// (no imports, nothing newer than ECMAScript 5), and is written out to docs/sharing/ as it is here.

/**
 * Whether a document may be written. Source of the contract: Apache CouchDB 3 documentation, "Validate Document Update
 * Functions".
 *
 * @throws {{forbidden: string} | {unauthorized: string}}
 */
export function validateCarried(newDoc, oldDoc, userCtx, secObj) {
  var roles = userCtx.roles || [];
  var isAdmin = roles.indexOf('_admin') >= 0;
  var isReader = roles.indexOf('hundredths-reads') >= 0;
  var LETTERS = { document: 'd', log: 'l', notChosen: 'n', picture: 'p', sealed: 's', key: 'k' };
  var refuse = function (why) {
    throw { forbidden: why };
  };
  if (!userCtx.name) throw { unauthorized: 'A name and its password are needed.' };
  if (isAdmin) return;
  if (isReader) refuse('This name may read only.');
  if (newDoc._id.indexOf('_design/') === 0) refuse('Only whoever keeps the server may change its rules.');
  if (newDoc._deleted) {
    if (oldDoc && oldDoc.by !== userCtx.name) refuse('Only whoever has sent a document may remove it.');
    return;
  }
  if (newDoc.format !== 'hundredths') refuse('This is not of a case of reeds.');
  if (typeof newDoc.version !== 'number' || newDoc.version < 1) refuse('Its version is missing.');
  if (typeof LETTERS[newDoc.of] !== 'string') refuse('It is of no kind that a case has.');
  if (!new RegExp('^' + LETTERS[newDoc.of] + '-[0-9a-f]{32}$').test(newDoc._id))
    refuse('Its name is not that of its content.');
  if (typeof newDoc.record !== 'object' || newDoc.record === null) refuse('It has no record.');
  if (newDoc.by !== userCtx.name) refuse('It is sent under another name.');
  if (JSON.stringify(newDoc.record).length > 2e6) refuse('It is too large.');
  if (oldDoc && !oldDoc._deleted) refuse('What was sent is never altered.');
  if (secObj && secObj.closed === true) refuse('This case is closed.');
}
