// SPDX-License-Identifier: MIT
// Files in and out of the page: a download, a file chooser, a file dropped on the bench.
mergeInto(LibraryManager.library, {
    $loomFiles__deps: ['$loomSend'],
    $loomFiles: {
        chooser: null,

        listen: function () {
            var chooser = document.createElement('input');
            chooser.type = 'file';
            chooser.accept = '.json,application/json';
            chooser.hidden = true;
            chooser.tabIndex = -1;
            chooser.id = 'bench-file';
            chooser.addEventListener('change', function () {
                if (chooser.files.length) loomFiles.read(chooser.files[0]);
                chooser.value = '';
                Module['canvas'].focus();
            });
            document.body.appendChild(chooser);  // some browsers open only what is in the page
            loomFiles.chooser = chooser;

            window.addEventListener('dragover', function (event) { event.preventDefault(); });
            window.addEventListener('drop', function (event) {
                event.preventDefault();
                var file = event.dataTransfer && event.dataTransfer.files[0];
                if (file) loomFiles.read(file);
            });
        },

        read: function (file) {
            loomSend(file.name);
            if (!_loom_file_named(file.size)) return;  // refused before it is read
            file['arrayBuffer']().then(
                function (bytes) {
                    loomSend(new Uint8Array(bytes));
                    _loom_file_read(1);
                },
                function () { _loom_file_read(0); });
        }
    },

    loom_files_choose__deps: ['$loomFiles'],
    loom_files_choose: function () {
        loomFiles.chooser.click();
    },

    loom_files_save: function (name, text) {
        var kinds = { 'csv': 'text/csv', 'svg': 'image/svg+xml' };
        var kind = kinds[UTF8ToString(name).split('.').pop()] || 'application/json';
        var file = new Blob([UTF8ToString(text)], { type: kind });
        var link = document.createElement('a');
        link.href = URL.createObjectURL(file);
        link.download = UTF8ToString(name);
        document.body.appendChild(link);
        link.click();
        link.remove();
        setTimeout(function () { URL.revokeObjectURL(link.href); }, 60000);
    }
});
