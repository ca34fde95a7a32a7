// Lets one call of IndexedDB fail, in the way a browser lets it fail:
//
//   setFault('lost', 7)     the seventh call from now on
//   fault.hit               the call that was hit, if the kind can hit it
(() => {
  'use strict';
  const exception = (name, message) => new DOMException(message, name);

  // The transaction comes to nothing, for a reason of the browser's.
  const abortWith = (tx, error) => {
    Object.defineProperty(tx, 'error', { configurable: true, get: () => error });
    tx.abort();
  };
  const database = (on) => (on instanceof IDBDatabase ? on : on.transaction.db);
  const failedOpen = (error) => {
    const request = { error };
    setTimeout(() => request.onerror({ preventDefault() {} }));
    return request;
  };

  // Each kind says by the sort of call what happens; where it says nothing the call
  // cannot fail that way.
  const kinds = {
    // The request succeeds first, and only then does the transaction come to nothing.
    quota: { put: (on, call) => {
      const request = call();
      request.addEventListener('success', () => abortWith(on.transaction, exception('QuotaExceededError', 'Encountered full disk.')));
      return request;
    } },
    aborted: {
      transaction: (on, call) => { const tx = call(); tx.abort(); return tx; },
      request: (on, call) => { const request = call(); on.transaction.abort(); return request; },
    },
    'aborted late': { request: (on, call) => {
      const request = call();
      request.addEventListener('success', () => on.transaction.abort());
      return request;
    } },
    lost: {
      deleteDatabase: () => failedOpen(exception('UnknownError', 'Connection to Indexed Database server lost. Refresh the page to try again')),
      open: () => failedOpen(exception('UnknownError', 'Connection to Indexed Database server lost. Refresh the page to try again')),
      transaction: () => { throw exception('UnknownError', 'Connection to Indexed Database server lost. Refresh the page to try again'); },
      request: (on, call) => {
        const request = call();
        abortWith(on.transaction, exception('UnknownError', 'Connection to Indexed Database server lost. Refresh the page to try again'));
        return request;
      },
    },
    closing: {
      transaction: (on) => { on.close(); throw exception('InvalidStateError', 'The database connection is closing.'); },
      request: (on) => { on.transaction.db.close(); throw exception('InvalidStateError', 'The database connection is closing.'); },
    },
    idle: { request: () => { throw exception('UnknownError', 'Attempt to get a record from database without an in-progress transaction'); } },
    finished: { request: () => { throw exception('TransactionInactiveError', 'The transaction has finished.'); } },
    backing: {
      deleteDatabase: () => failedOpen(exception('UnknownError', 'Internal error opening backing store for indexedDB.deleteDatabase.')),
      open: () => failedOpen(exception('UnknownError', 'Internal error opening backing store for indexedDB.open.')),
      request: (on, call) => {
        const request = call();
        abortWith(on.transaction, exception('UnknownError', 'Internal error committing transaction to the backing store.'));
        return request;
      },
    },
    'version change': {
      transaction: (on, call) => { database(on).dispatchEvent(new IDBVersionChangeEvent('versionchange', { oldVersion: 1, newVersion: 2 })); return call(); },
      request: (on, call) => { database(on).dispatchEvent(new IDBVersionChangeEvent('versionchange', { oldVersion: 1, newVersion: 2 })); return call(); },
    },
    closed: {
      transaction: (on, call) => { database(on).dispatchEvent(new Event('close')); return call(); },
      request: (on, call) => { database(on).close(); database(on).dispatchEvent(new Event('close')); return call(); },
    },
    hang: { open: () => ({}), deleteDatabase: () => ({}) },
  };

  globalThis.fault = null;
  globalThis.faultKinds = Object.keys(kinds);
  globalThis.setFault = (kind, at) => { globalThis.fault = kind ? { kind, at, calls: 0, hit: '' } : null; };

  const wrap = (type, names, sort) => {
    for (const name of names) {
      const real = type.prototype[name];
      type.prototype[name] = function (...args) {
        const call = () => real.apply(this, args);
        const f = globalThis.fault;
        if (!f || (++f.calls !== f.at && f.at !== 'each')) return call();
        const does = kinds[f.kind][name] || kinds[f.kind][sort];
        if (!does) return call();
        f.hit = name;
        return does(this, call);
      };
    }
  };
  wrap(IDBFactory, ['open', 'deleteDatabase'], 'place');
  wrap(IDBDatabase, ['transaction'], 'transaction');
  wrap(IDBObjectStore, ['put', 'get', 'getKey', 'getAll', 'getAllKeys', 'openCursor', 'openKeyCursor', 'delete'], 'request');
})();
