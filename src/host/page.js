// SPDX-License-Identifier: MIT
// The page round the canvas: what wakes the program, its size, whose keys are whose, the trackpad's
// pinch, a lost graphics context. Everything else reaches the program through SDL.
mergeInto(LibraryManager.library, {
    // SDL and Dear ImGui both ask this one. Beyond 2 nothing is gained and old graphics suffer.
    emscripten_get_device_pixel_ratio: function () {
        return Math.min(2, window.devicePixelRatio || 1);
    },

    // Puts text, or bytes, where stringArgument() in string_argument.h finds it.
    $loomSend: function (text) {
        if (typeof text === 'string') {
            var length = lengthBytesUTF8(text);
            stringToUTF8(text, _loom_string_argument(length), length + 1);
        } else {
            HEAPU8.set(text, _loom_string_argument(text.length));
        }
    },

    // Keys that stay the browser's: its own shortcuts, and Tab after Escape, so that the canvas
    // holds nobody's keyboard. SDL would cancel them all.
    $loomKeys: {
        tabLeaves: false,
        isBrowsers: function (event) {
            if (event.key === 'Tab' && loomKeys.tabLeaves) return true;
            if (/^F\d+$/.test(event.key) && event.key !== 'F1') return true;
            if (event.altKey) return true;
            if (!event.ctrlKey && !event.metaKey) return false;
            return !/^([zyso]|Arrow\w+|Control|Meta|Shift)$/i.test(event.key);
        },
        down: function (event) {
            if (event.target !== Module['canvas']) return;
            var browsers = loomKeys.isBrowsers(event);
            if (!/^(Tab|Shift)$/.test(event.key)) {
                loomKeys.tabLeaves = event.key === 'Escape' && !!_loom_hands_free();
            }
            if (browsers) event.stopImmediatePropagation();
        }
    },

    $loomPointer: {
        place: function (event) {
            var box = Module['canvas'].getBoundingClientRect();
            return [event.clientX - box.left, event.clientY - box.top];
        },
        down: function (event) {
            // A drag goes on outside the canvas and the window.
            if (event.target === Module['canvas'] && event.pointerType === 'mouse') {
                event.target.setPointerCapture(event.pointerId);
            }
        },
        // Browsers open a file chooser only from within the learner's own act, so a release where
        // one may be asked for is not left for the next frame.
        up: function (event) {
            var at = loomPointer.place(event.changedTouches ? event.changedTouches[0] : event);
            if (_loom_may_open_file(at[0], at[1])) _loom_turn_now();
        },
        // Trackpads report a pinch as the wheel with the control key.
        wheel: function (event) {
            if (event.target !== Module['canvas'] || !event.ctrlKey) return;
            event.preventDefault();
            event.stopImmediatePropagation();
            var at = loomPointer.place(event);
            _loom_zoom(at[0], at[1], Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.01)));
        }
    },

    loom_listen__deps: ['$loomKeys', '$loomPointer', '$loomFiles'],
    loom_listen: function () {
        var canvas = Module['canvas'];
        var early = { capture: true, passive: true };
        // Ahead of SDL's own listeners, which only queue: the next frame reads the queue.
        window.addEventListener('keydown', loomKeys.down, true);
        window.addEventListener('pointerdown', loomPointer.down, early);
        // Behind them.
        window.addEventListener('mouseup', loomPointer.up);
        window.addEventListener('touchend', loomPointer.up);
        window.addEventListener('keydown', function (event) {
            if (event.target === canvas && _loom_focus_may_open_file()) _loom_turn_now();
        });
        window.addEventListener('wheel', loomPointer.wheel, { capture: true, passive: false });
        canvas.addEventListener('touchcancel', function () { _loom_touch_cancelled(); }, early);
        canvas.addEventListener('blur', function () {
            loomKeys.tabLeaves = false;
            _loom_keys_released();
        });
        ['keydown', 'keyup', 'pointerdown', 'pointermove', 'pointerup', 'pointercancel', 'wheel',
            'touchstart', 'touchmove', 'touchend', 'touchcancel', 'focus', 'blur', 'resize', 'message']
            .forEach(function (type) {
                window.addEventListener(type, function () { _loom_wake(); }, early);
            });
        loomFiles.listen();

        var still = window.matchMedia('(prefers-reduced-motion: reduce)');
        var tellStill = function () { _loom_reduced_motion(still.matches); };
        still.addEventListener('change', tellStill);
        tellStill();

        var watchRatio = function () {
            window.matchMedia('(resolution: ' + window.devicePixelRatio + 'dppx)')
                .addEventListener('change', function () {
                    _loom_resized();
                    watchRatio();
                }, { once: true });
        };
        watchRatio();
        new ResizeObserver(function () { _loom_resized(); }).observe(canvas);

        document.addEventListener('visibilitychange', function () {
            _loom_visible(document.visibilityState === 'visible');
        });
        window.addEventListener('pagehide', function () { _loom_leaving(); });

        // Every texture and program is gone with the context: begin again from what was saved.
        canvas.addEventListener('webglcontextlost', function (event) {
            event.preventDefault();
            _loom_context_lost();
            var again = function () { location.reload(); };
            canvas.addEventListener('webglcontextrestored', again, { once: true });
            setTimeout(again, 3000);
        });
    },

    // What ?name=… in the address says; empty when it is not there.
    loom_address__deps: ['$loomSend'],
    loom_address: function (name) {
        loomSend(new URLSearchParams(location.search).get(UTF8ToString(name)) || '');
    },

    // What a learner chose, kept by this browser; empty when nothing is kept or nothing can be.
    loom_setting__deps: ['$loomSend'],
    loom_setting: function (name) {
        var text = null;
        try {
            text = window['localStorage']['getItem']('loomwright.' + UTF8ToString(name));
        } catch (refused) {
        }
        loomSend(text || '');
    },

    loom_keep_setting: function (name, text) {
        try {
            window['localStorage']['setItem']('loomwright.' + UTF8ToString(name), UTF8ToString(text));
        } catch (refused) {
        }
    },

    // For screen readers, which speak as this says.
    loom_language: function (name) {
        document.documentElement['lang'] = UTF8ToString(name);
    },

    loom_first_frame: function () {
        performance.mark('loom-first-frame');
    },

    loom_no_graphics: function () {
        Module['noGraphics']();
    },

    // The program cannot go on; the page's loading panel says why.
    loom_give_up: function (text) {
        abort(UTF8ToString(text));
    }
});
