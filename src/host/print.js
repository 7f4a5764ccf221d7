// SPDX-License-Identifier: MIT
// Pages of paper through the browser's print. The canvas would print blank, so the pages are put
// into the document for that moment, where only print shows them, and nothing else of it is printed.
mergeInto(LibraryManager.library, {
    $loomPrint: {
        sheets: null,

        style: '@page { size: A4 landscape; margin: 0 }\n' +
            '#loom-print { display: none }\n' +
            '@media print {\n' +
            '  html, body { margin: 0 !important; padding: 0 !important; background: #fff !important;\n' +
            '    width: auto !important; height: auto !important; overflow: visible !important;\n' +
            '    position: static !important }\n' +
            '  body > *:not(#loom-print) { display: none !important }\n' +
            '  #loom-print { display: block }\n' +
            '  #loom-print svg { display: block; break-after: page; break-inside: avoid;\n' +
            '    print-color-adjust: exact; -webkit-print-color-adjust: exact }\n' +
            '  #loom-print svg:last-child { break-after: auto }\n' +
            '}\n',

        clear: function () {
            if (loomPrint.sheets) loomPrint.sheets.remove();
            loomPrint.sheets = null;
        }
    },

    loom_print_page__deps: ['$loomPrint'],
    loom_print_page: function (svg) {
        if (!loomPrint.sheets) {
            loomPrint.sheets = document.createElement('div');
            loomPrint.sheets.id = 'loom-print';
            loomPrint.sheets.setAttribute('aria-hidden', 'true');
            var style = document.createElement('style');
            style.textContent = loomPrint.style;
            loomPrint.sheets.appendChild(style);
            document.body.appendChild(loomPrint.sheets);
        }
        var page = new DOMParser()['parseFromString'](UTF8ToString(svg), 'image/svg+xml');
        loomPrint.sheets.appendChild(document.importNode(page.documentElement, true));
    },

    loom_print_now__deps: ['$loomPrint'],
    loom_print_now: function () {
        var done = function () {
            window.removeEventListener('afterprint', done);
            loomPrint.clear();
        };
        window.addEventListener('afterprint', done);
        window.print();
    },

    loom_print_clear__deps: ['$loomPrint'],
    loom_print_clear: function () { loomPrint.clear(); }
});
