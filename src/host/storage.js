// SPDX-License-Identifier: MIT
// The learner's documents in IndexedDB: one record each under "attempt:<document>", with a revision
// so that a page left open elsewhere cannot overwrite newer work; under "open" which one is on the
// bench, under "free" which one the free bench shows: the learner's own ("free") or an opened file
// ("file"). Where the browser keeps nothing they live as long as the page.
mergeInto(LibraryManager.library, {
    $loomStorage__deps: ['$loomSend'],
    $loomStorage: {
        db: null,
        memory: {},     // instead of the database
        known: {},      // revision of each document as this page last read or wrote it
        overtaken: {},  // documents that another page has newer work of
        timer: 0,

        // then(true) once it is open, then(false) when there is no storage to be had.
        open: function (then) {
            var answered = false;
            var answer = function (works) {
                if (answered) return;
                answered = true;
                then(works);
            };
            var request;
            try {
                request = indexedDB.open('loomwright', 1);
            } catch (error) {
                return answer(false);
            }
            request.onupgradeneeded = function () { request.result.createObjectStore('documents'); };
            request.onerror = function (event) {
                event.preventDefault();
                answer(false);
            };
            request.onsuccess = function () {
                loomStorage.db = request.result;
                loomStorage.db.onversionchange = function () { loomStorage.db.close(); };
                answer(true);
            };
            setTimeout(function () { answer(false); }, 3000);  // some private windows never answer
        },

        begin: function (mode) {
            return loomStorage.db.transaction('documents', mode, { 'durability': 'strict' });
        },

        // then(record or undefined)
        get: function (key, then) {
            if (!loomStorage.db) return then(loomStorage.memory[key]);
            try {
                var request = loomStorage.begin('readonly').objectStore('documents').get(key);
                request.onsuccess = function () { then(request.result); };
                request.onerror = function () { then(undefined); };
            } catch (error) {
                then(undefined);
            }
        },

        hand: function (document, text) {
            loomSend(document);
            _loom_document_named();
            loomSend(text);
            _loom_document_read();
        },

        restore: function (document) {
            loomStorage.get('attempt:' + document, function (record) {
                loomStorage.known[document] = record ? record['revision'] : 0;
                loomStorage.overtaken[document] = false;
                loomStorage.hand(document, record ? record['text'] : '');
            });
        },

        pointers: function (document) {
            return document === 'free' || document === 'file' ? ['open', 'free'] : ['open'];
        },

        // Once, when there is something to lose. Firefox would ask the learner, so not there.
        askToKeep: function () {
            loomStorage.askToKeep = function () {};
            if (navigator.storage && navigator.storage['persist'] && !('mozInnerScreenX' in window)) {
                navigator.storage['persist']();
            }
        },

        // Writes unless the stored revision has moved on without us.
        put: function (document, text, mark, leaving) {
            var key = 'attempt:' + document;
            var before = loomStorage.known[document];
            var record = { 'revision': (before || 0) + 1, 'text': text };
            if (!loomStorage.db) {
                loomStorage.known[document] = record['revision'];
                loomStorage.memory[key] = record;
                loomStorage.pointers(document).forEach(function (name) {
                    loomStorage.memory[name] = { 'document': document };
                });
                return;
            }
            try {
                var work = loomStorage.begin('readwrite');
                var store = work.objectStore('documents');
                var stored = store.get(key);
                stored.onsuccess = function () {
                    if (before !== undefined && stored.result && stored.result['revision'] > before) {
                        loomStorage.overtaken[document] = true;
                    }
                    if (loomStorage.overtaken[document] && !leaving) work.abort();
                };
                store.put(record, key);
                loomStorage.pointers(document).forEach(function (name) {
                    store.put({ 'document': document }, name);
                });
                loomStorage.known[document] = record['revision'];
                work.oncomplete = function () {
                    loomStorage.known[document] =
                        Math.max(loomStorage.known[document] || 0, record['revision']);
                    _loom_saved(mark);
                    loomStorage.askToKeep();
                };
                work.onabort = function () {
                    loomStorage.known[document] = before;
                    _loom_not_saved(mark, !!loomStorage.overtaken[document]);
                };
                // A page on its way out hears no more answers.
                if (leaving && work['commit']) work['commit']();
            } catch (error) {
                _loom_not_saved(mark, false);
            }
        }
    },

    // Reads the document wanted, or when that is empty the one that was open.
    loom_storage_open__deps: ['$loomStorage'],
    loom_storage_open: function (wanted) {
        var document = UTF8ToString(wanted);
        loomStorage.open(function (works) {
            if (!works) _loom_no_storage();
            if (document) return loomStorage.restore(document);
            loomStorage.get('open', function (record) {
                if (record) loomStorage.restore(record['document']);
                else loomStorage.hand('', '');
            });
        });
    },

    // An empty name: whatever the free bench showed last.
    loom_storage_read__deps: ['$loomStorage'],
    loom_storage_read: function (name) {
        var document = UTF8ToString(name);
        if (document) return loomStorage.restore(document);
        loomStorage.get('free', function (record) {
            loomStorage.restore(record ? record['document'] : 'free');
        });
    },

    // The document is the one to open next time, though nothing is written of it yet.
    loom_storage_point__deps: ['$loomStorage'],
    loom_storage_point: function (name) {
        var document = UTF8ToString(name);
        var store = loomStorage.db && loomStorage.begin('readwrite').objectStore('documents');
        loomStorage.pointers(document).forEach(function (pointer) {
            if (store) store.put({ 'document': document }, pointer);
            else loomStorage.memory[pointer] = { 'document': document };
        });
    },

    loom_storage_write__deps: ['$loomStorage'],
    loom_storage_write: function (document, text, mark, leaving) {
        loomStorage.put(UTF8ToString(document), UTF8ToString(text), mark, leaving);
    },

    // Calls loom_save_due() after so many milliseconds, once however often it is asked meanwhile.
    loom_storage_soon__deps: ['$loomStorage'],
    loom_storage_soon: function (delay_ms) {
        if (loomStorage.timer) return;
        loomStorage.timer = setTimeout(function () {
            loomStorage.timer = 0;
            _loom_save_due();
        }, delay_ms);
    },

    // A record that cannot be read is kept under another key, out of the way of the next save.
    loom_storage_set_aside__deps: ['$loomStorage'],
    loom_storage_set_aside: function (document) {
        var key = 'attempt:' + UTF8ToString(document);
        loomStorage.known[UTF8ToString(document)] = undefined;
        if (!loomStorage.db) return;
        var store = loomStorage.begin('readwrite').objectStore('documents');
        var request = store.get(key);
        request.onsuccess = function () {
            if (request.result) store.put(request.result, key + ':unreadable');
            store.delete(key);
        };
    },

    // Another page may have worked on it while this one was away.
    loom_storage_check__deps: ['$loomStorage'],
    loom_storage_check: function (document, mark) {
        var name = UTF8ToString(document);
        loomStorage.get('attempt:' + name, function (record) {
            if (!record || !(record['revision'] > loomStorage.known[name])) return;
            loomStorage.overtaken[name] = true;
            _loom_not_saved(mark, true);
        });
    }
});
