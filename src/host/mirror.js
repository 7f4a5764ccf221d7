// SPDX-License-Identifier: MIT
// The bench for those who do not see the canvas: what is on it as lists of real buttons, a zone
// each, and the last sentence in the page's polite status line.
mergeInto(LibraryManager.library, {
    $loomMirror: {
        lists: {},    // by the zone's name
        buttons: {},  // by the item's name

        listOf: function (zone) {
            if (loomMirror.lists[zone]) return loomMirror.lists[zone];
            var group = document.createElement('section');
            var list = document.createElement('ul');
            group.setAttribute('aria-label', zone);
            group.appendChild(list);
            document.getElementById('mirror').appendChild(group);
            loomMirror.lists[zone] = list;
            return list;
        },

        buttonOf: function (name) {
            if (loomMirror.buttons[name]) return loomMirror.buttons[name];
            var button = document.createElement('button');
            button.tabIndex = -1;  // the canvas has the keyboard; this is for reading through
            button.dataset.name = name;
            button.addEventListener('click', function () {
                loomSend(name);
                _loom_act();
            });
            loomMirror.buttons[name] = document.createElement('li');
            loomMirror.buttons[name].appendChild(button);
            return loomMirror.buttons[name];
        }
    },

    // items: [[zone, name, label], …] in reading order.
    loom_mirror_show__deps: ['$loomMirror', '$loomSend'],
    loom_mirror_show: function (json) {
        var items = JSON.parse(UTF8ToString(json));
        var seen = {};
        var last = {};
        items.forEach(function (item) {
            var list = loomMirror.listOf(item[0]);
            var row = loomMirror.buttonOf(item[1]);
            if (row.firstChild.textContent !== item[2]) row.firstChild.textContent = item[2];
            var after = last[item[0]] ? last[item[0]].nextSibling : list.firstChild;
            if (row !== after) list.insertBefore(row, after);
            last[item[0]] = row;
            seen[item[1]] = true;
        });
        Object.keys(loomMirror.buttons).forEach(function (name) {
            if (seen[name]) return;
            loomMirror.buttons[name].remove();
            delete loomMirror.buttons[name];
        });
    },

    // Says a sentence once; the same one again is said again.
    loom_mirror_say: function (text) {
        var line = document.getElementById('status');
        var sentence = UTF8ToString(text);
        line.textContent = '';
        requestAnimationFrame(function () { line.textContent = sentence; });
    },

    loom_mirror_describe: function (what, how) {
        var canvas = Module['canvas'];
        canvas.setAttribute('role', 'application');
        canvas.setAttribute('aria-label', UTF8ToString(what));
        var note = document.createElement('p');
        note.id = 'canvas-keys';
        note.className = 'unseen';
        note.textContent = UTF8ToString(how);
        document.body.appendChild(note);
        canvas.setAttribute('aria-describedby', note.id);
    }
});
