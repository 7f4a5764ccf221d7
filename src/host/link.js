// SPDX-License-Identifier: MIT
// A bench in a link: deflated, in base64url, behind #bench= in the address, which no server is told.
mergeInto(LibraryManager.library, {
    $loomLink__deps: ['$loomSend'],
    $loomLink: {
        // Chat programs, school filters and mail cut longer ones.
        longest: 1800,
        // What a link may unfold to; an attempt of that size is refused anyway.
        most_bytes: 8 << 20,

        through: function (stream, bytes) {
            return new Blob([bytes])['stream']()['pipeThrough'](stream);
        },

        toWord: function (bytes) {
            var text = '';
            bytes.forEach(function (byte) { text += String.fromCharCode(byte); });
            return btoa(text).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
        },

        toBytes: function (word) {
            var text = atob(word.replace(/-/g, '+').replace(/_/g, '/'));
            return Uint8Array.from(text, function (letter) { return letter.charCodeAt(0); });
        },

        copy: function (link) {
            navigator['clipboard']['writeText'](link).then(
                function () { _loom_link_made(1); },
                function () { _loom_link_made(2); });
        },

        // The stream's bytes; refused beyond most_bytes, so that a small link cannot fill the memory.
        gather: function (reader, parts, size) {
            return reader.read().then(function (got) {
                if (got.done) return new Blob(parts)['arrayBuffer']();
                size += got.value.length;
                if (size > loomLink.most_bytes) throw new Error('too large');
                parts.push(got.value);
                return loomLink.gather(reader, parts, size);
            });
        }
    },

    loom_link_make__deps: ['$loomLink'],
    loom_link_make: function (text) {
        var bytes = new TextEncoder().encode(UTF8ToString(text));
        if (!window['CompressionStream']) return _loom_link_made(2);
        var deflated = loomLink.through(new window['CompressionStream']('deflate-raw'), bytes);
        loomLink.gather(deflated['getReader'](), [], 0).then(function (all) {
            var link = location.origin + location.pathname
                + '#bench=' + loomLink.toWord(new Uint8Array(all));
            if (link.length > loomLink.longest) return _loom_link_made(0);
            loomLink.copy(link);
        }).catch(function () { _loom_link_made(2); });
    },

    // When the address brings a bench, loom_link_read() is called with it, or with nothing when it
    // is damaged. The address is clean afterwards, so that a reload does not bring it again.
    loom_link_look__deps: ['$loomLink'],
    loom_link_look: function () {
        var found = /^#bench=([\w-]*)/.exec(location.hash);
        if (!found) return;
        history.replaceState(null, '', location.pathname + location.search);
        var tell = function (bytes) {
            loomSend(bytes);
            _loom_link_read();
        };
        Promise.resolve().then(function () {
            var inflate = new window['DecompressionStream']('deflate-raw');
            var stream = loomLink.through(inflate, loomLink.toBytes(found[1]));
            return loomLink.gather(stream['getReader'](), [], 0);
        }).then(function (all) { tell(new Uint8Array(all)); }, function () { tell(''); });
    }
});
