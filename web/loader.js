// Loads the bench, says how far it is, and says in plain words when it cannot run here.
// With ?probe in the address it offers window.loomProbe(): what the bench shows, for tests.
"use strict";
(() => {
    const build = window.loomwrightBuild;
    const options = new URLSearchParams(location.search);
    const canvas = document.getElementById("canvas");
    const panel = document.getElementById("loading");
    const line = document.getElementById("loading-line");
    const bar = document.getElementById("loading-bar");
    const again = document.getElementById("loading-again");
    let started = false;
    let lacking = false;  // no graphics: the panel stays

    function say(text, percent) {
        line.textContent = text;
        bar.value = percent;
    }

    // The bench cannot go on: say so over everything, with the one thing that can be done.
    function giveUp(text, mayHelp) {
        panel.hidden = false;
        panel.setAttribute("role", "alert");
        line.textContent = text;
        bar.hidden = true;
        again.hidden = !mayHelp;
        again.onclick = () => location.reload();
    }

    // The program finds out whether there is WebGL by using it: a context made only to ask costs up to
    // 0.3 s of the first frame.
    const noGraphics = "This browser cannot draw the bench: WebGL is missing or switched off. "
        + "Turn on hardware acceleration in the browser's settings, or use another browser.";

    function whatIsMissing() {
        if (typeof WebAssembly !== "object") {
            return "This browser is too old for the bench: it has no WebAssembly. "
                + "A current Firefox, Chrome, Edge or Safari will run it.";
        }
        return null;
    }

    // The program's bytes, counted as they come in.
    async function fetchProgram() {
        const response = await fetch(`loomwright.wasm?v=${build.id}`);
        if (!response.ok) throw new Error(`the server answered ${response.status}`);
        if (!response.body) return response;
        let seen = 0;
        const counted = response.body.pipeThrough(new TransformStream({
            transform(chunk, out) {
                seen += chunk.length;
                const percent = Math.min(99, Math.round((100 * seen) / build.wasmBytes));
                say(`Loading the bench: ${Math.round(seen / 1000)} of ${Math.round(build.wasmBytes / 1000)} kB`,
                    percent);
                out.enqueue(chunk);
            },
        }));
        return new Response(counted, { headers: { "Content-Type": "application/wasm" } });
    }

    async function instantiate(imports) {
        const response = await fetchProgram();
        if (WebAssembly.instantiateStreaming) return WebAssembly.instantiateStreaming(response, imports);
        return WebAssembly.instantiate(await response.arrayBuffer(), imports);
    }

    function offerProbe(module) {
        window.loomModule = module;
        const tell = (section) => JSON.parse(module.ccall("loom_probe", "string", ["string"], [section]));
        const sections = tell("");
        // A section becomes a listed member when it is first looked at.
        const section = (name) => ({
            configurable: true,
            get() {
                const value = tell(name);
                Object.defineProperty(this, name, { value, enumerable: true });
                return value;
            },
        });
        const lazy = Object.fromEntries(sections.map((name) => [name, section(name)]));
        window.loomProbe = () => Object.defineProperties({}, lazy);
        window.loomProbe.sections = sections;
    }

    async function start() {
        const missing = whatIsMissing();
        if (missing) return giveUp(missing, false);
        if (typeof createLoomwright !== "function") {
            return giveUp("A part of the bench did not arrive. Is the network up?", true);
        }
        const settings = {
            canvas,
            print: (text) => console.log(text),
            printErr: (text) => console.warn(text),
            noGraphics() {
                lacking = true;
                giveUp(noGraphics, false);
            },
            onAbort: (what) => giveUp("The bench has stopped because of a fault in the program. "
                + "What you made was saved as you went. (" + what + ")", true),
            instantiateWasm(imports, done) {
                instantiate(imports).then(
                    (result) => {
                        say("Setting up the bench", 100);
                        done(result.instance, result.module);
                    },
                    (error) => giveUp("The bench did not load: " + error.message
                        + ". Check the network, then load it again.", true));
                return {};
            },
        };
        const module = await createLoomwright(settings);
        started = true;
        if (lacking) return;
        panel.hidden = true;
        canvas.focus({ preventScroll: true });
        if (options.has("probe")) offerProbe(module);
    }

    // Offline use: the worker keeps a copy of this build. The bench runs the same without it.
    function keepForOffline() {
        const safe = location.protocol === "https:" || location.hostname === "localhost"
            || location.hostname === "127.0.0.1";
        if (!safe || !("serviceWorker" in navigator) || options.has("probe")) return;
        navigator.serviceWorker.register("sw.js", { updateViaCache: "none" }).catch(() => {});
    }

    canvas.addEventListener("pointerdown", () => canvas.focus({ preventScroll: true }));
    canvas.addEventListener("contextmenu", (event) => event.preventDefault());
    start().catch((error) => {
        if (!started) giveUp("The bench did not start: " + error.message, true);
    });
    window.addEventListener("load", keepForOffline);
})();
