// SPDX-License-Identifier: MIT
// The meter's tone of continuity: a plain sine while it is wanted and the page is seen. A page that
// may not sound, or cannot, stays silent; the meter's picture says the same.
mergeInto(LibraryManager.library, {
    $loomTone: {
        context: null,
        gain: null,
        wanted: false,

        // The browser lets a page sound once somebody has touched it.
        make: function () {
            var Context = window.AudioContext || window['webkitAudioContext'];
            if (!Context || loomTone.context) return;
            var context = new Context();
            var wave = context.createOscillator();
            wave.type = 'sine';
            wave.frequency.value = 1000;
            loomTone.gain = context.createGain();
            loomTone.gain.gain.value = 0;
            wave.connect(loomTone.gain);
            loomTone.gain.connect(context.destination);
            wave.start();
            loomTone.context = context;
            document.addEventListener('visibilitychange', function () { loomTone.set(); });
        },

        // Eased over some milliseconds, so that it does not click.
        set: function () {
            if (!loomTone.context) return;
            var loud = loomTone.wanted && document.visibilityState === 'visible';
            if (loud) loomTone.context.resume().catch(function () {});
            loomTone.gain.gain.setTargetAtTime(loud ? 0.1 : 0, loomTone.context.currentTime, 0.01);
        }
    },

    loom_tone__deps: ['$loomTone'],
    loom_tone: function (on) {
        loomTone.wanted = on !== 0;
        try {
            if (loomTone.wanted) loomTone.make();
            loomTone.set();
        } catch (silent) {}
    }
});
