// Drives the built page in Chromium by real input. A test file is tests/web/NAME.test.mjs:
//
//   import { benchTest, check } from "./harness.mjs";
//   benchTest("the headlamp lights", async (page) => {
//       await page.open();
//       await page.drag("tray/battery", [400, 300]);
//       await page.waitFor((probe) => probe.bench.parts.length === 1, "one part on the bench");
//       await page.shot("first-part");
//   });
//
// Places are names out of probe.rects (their middle is used) or [x, y] in CSS pixels. Nothing here
// sleeps: each step waits for a state that window.loomProbe() reports (its sections: src/host/probe.h).
// Any console error, uncaught exception or failed request fails the test.
//
// Drawing is by software here, so a test's page has half a device pixel to a CSS pixel: the same
// layout and events, a quarter of the pixels. Its pictures are taken with a whole one, in
// build/shots: of what failed always, all the others when LOOM_SHOTS is set.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { cpus, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { serve } from "../../web/serve.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const require = createRequire(join(root, "build/deps/node/package.json"));
const { chromium } = require("playwright-core");
const patience_ms = 60000;
const testScale = 0.5;
const limit_s = 600; // of a whole test, where a slow machine takes tens of seconds

const chromiumFlags = ["--headless", "--no-sandbox", "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync"];

const tests = [];

// benchTest(name, async (page, browser) => …, {width, height, touch, scale, reducedMotion, profile, limit_s})
// profile: the test kills or reopens its browser.
export function benchTest(name, body, options = {}) {
    tests.push({ name, body, options });
}

class Difference extends Error {
    constructor(what, expected, found) {
        super(`${what}\n      expected: ${show(expected)}\n      found:    ${show(found)}`);
    }
}

function show(value) {
    const text = typeof value === "string" ? value : JSON.stringify(value);
    return text && text.length > 600 ? text.slice(0, 600) + "…" : String(text);
}

export const check = {
    equal(found, expected, what) {
        if (JSON.stringify(found) !== JSON.stringify(expected)) throw new Difference(what, expected, found);
    },
    near(found, expected, tolerance, what) {
        if (!(Math.abs(found - expected) <= tolerance)) {
            throw new Difference(what, `${expected} within ${tolerance}`, found);
        }
    },
    that(truth, what, found = truth) {
        if (!truth) throw new Difference(what, "true", found);
    },
};

let server = null;

const program = {
    executablePath: process.env.LOOM_CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    args: chromiumFlags,
};

// Chromium with storage of its own. With {shared: true} it is a context of a program that the next
// test uses as well; otherwise a program with a profile, which outlives a kill, so that a test can
// reopen it.
export class Browser {
    static idle = []; // programs that no test uses now

    constructor(options) {
        this.options = options;
        this.profile = options.shared ? null : mkdtempSync(join(tmpdir(), "loom-chromium-"));
        this.errors = [];
    }

    async launch() {
        const { width = 1280, height = 800, touch = false, scale = 1, reducedMotion } = this.options;
        const view = {
            viewport: { width, height },
            hasTouch: touch,
            deviceScaleFactor: scale,
            reducedMotion,
            acceptDownloads: true,
        };
        if (this.profile) {
            this.context = await chromium.launchPersistentContext(this.profile, { ...program, ...view });
        } else {
            this.program = Browser.idle.pop() ?? (await chromium.launch(program));
            this.context = await this.program.newContext(view);
        }
        const page = this.context.pages()[0] ?? (await this.context.newPage());
        this.page = new BenchPage(this, page, await this.context.newCDPSession(page));
        return this.page;
    }

    // SIGKILL to the browser and all its processes, as when the machine's power fails. A shared program
    // is closed instead, and not used again.
    async kill() {
        if (!this.profile) {
            const { program: shared } = this;
            this.program = this.context = null;
            return shared?.close();
        }
        const ours = processesUsing(this.profile);
        const closed = new Promise((done) => (this.context ? this.context.once("close", done) : done()));
        for (const pid of ours) {
            try {
                process.kill(pid, "SIGKILL");
            } catch {
                // ended by itself meanwhile
            }
        }
        await closed;
        this.context = null;
        rmSync(join(this.profile, "SingletonLock"), { force: true });
    }

    // The same profile again: storage is what it was.
    async reopen(query) {
        if (!this.profile) throw new Error("a test that reopens its browser asks for {profile: true}");
        if (this.context) await this.kill();
        await this.launch();
        await this.page.open(query);
        return this.page;
    }

    async close() {
        await this.context?.close();
        if (this.profile) rmSync(this.profile, { recursive: true, force: true, maxRetries: 5 });
        if (this.program?.isConnected()) Browser.idle.push(this.program);
        this.program = null;
    }
}

// Ids of the processes whose command line names this profile.
function processesUsing(profile) {
    const { readdirSync, readFileSync } = require("node:fs");
    return readdirSync("/proc").filter((name) => /^\d+$/.test(name)).map(Number).filter((pid) => {
        try {
            return pid !== process.pid && readFileSync(`/proc/${pid}/cmdline`, "utf8").includes(profile);
        } catch {
            return false;
        }
    });
}

// A section that was not asked for is a mistake in the test, not an absent value.
function onlyAsked(told) {
    return new Proxy(told, {
        get(sections, name) {
            if (typeof name === "symbol" || name in sections || name === "then" || name === "toJSON") {
                return sections[name];
            }
            throw new Error(`the section "${name}" of the probe was not asked for`);
        },
    });
}

export class BenchPage {
    constructor(browser, page, cdp) {
        this.browser = browser;
        this.page = page;   // Playwright's own page, for whatever is not covered here
        this.cdp = cdp;     // a session of Chromium's debugging protocol
        page.on("console", (message) => {
            if (message.type() === "error") browser.errors.push(`console: ${message.text()} at ${message.location().url}`);
        });
        page.on("pageerror", (error) => browser.errors.push(`uncaught: ${error.message}`));
        page.on("response", (response) => {
            if (response.status() >= 400) browser.errors.push(`${response.status()} for ${response.url()}`);
        });
    }

    siteAddress() {
        return `http://127.0.0.1:${server.port}/`;
    }

    // Opens the page and waits for the first settled frame. query: "lesson=twenty-four-volts".
    async open(query = "") {
        await this.page.goto(`${this.siteAddress()}?probe${query ? "&" + query : ""}`);
        await this.page.waitForFunction(() => typeof window.loomProbe === "function", null,
            { timeout: patience_ms });
        await this.settle();
    }

    // The sections named, or all.
    async probe(...names) {
        const told = await this.page.evaluate((wanted) => {
            const probe = window.loomProbe();
            for (const name of wanted.length ? wanted : window.loomProbe.sections) void probe[name];
            return probe;
        }, names);
        return onlyAsked(told);
    }

    // Looks once a frame until holds(probe, argument) is true in the page; returns those sections of
    // the probe that holds has looked at. holds is sent as text, so it sees only its two arguments;
    // what it adds to its argument is there at the next look.
    async waitFor(holds, what = String(holds), argument = null, timeout = patience_ms) {
        const told = await this.page.evaluate(async ([text, given, patience]) => {
            const holds = (0, eval)("(" + text + ")");
            const end = performance.now() + patience;
            while (performance.now() < end) {
                const probe = window.loomProbe();
                if (holds(probe, given)) return probe;
                await new Promise(requestAnimationFrame);
            }
            return null;
        }, [String(holds), argument, timeout]);
        if (told) return onlyAsked(told);
        const { rects, ...rest } = await this.probe();
        throw new Difference(`waited ${timeout / 1000} s for: ${what}`, what, rest);
    }

    settle() {
        return this.waitFor((probe) => probe.settled, "the bench is settled");
    }

    // [x, y, width, height] in CSS pixels of a named item, once it is on the screen.
    async rectOf(name) {
        const { rects } = await this.waitFor((p, wanted) => p.rects[wanted] !== undefined,
            `"${name}" is on the screen`, name);
        return rects[name];
    }

    // The middle of a named item, or [x, y] as it is.
    async pointOf(place) {
        if (Array.isArray(place)) return place;
        const [x, y, width, height] = await this.rectOf(place);
        return [x + width / 2, y + height / 2];
    }

    // --- pointer

    async tap(place) {
        const [x, y] = await this.pointOf(place);
        await this.page.mouse.move(x, y);
        await this.frame();
        await this.page.mouse.down();
        await this.frame();
        await this.page.mouse.up();
        await this.settle();
    }

    async press(place) {
        const [x, y] = await this.pointOf(place);
        await this.page.mouse.move(x, y);
        await this.frame();
        await this.page.mouse.down();
        await this.frame();
    }

    async moveTo(place, steps = 4) {
        const [x, y] = await this.pointOf(place);
        await this.page.mouse.move(x, y, { steps });
        await this.frame();
    }

    async release() {
        await this.page.mouse.up();
        await this.settle();
    }

    async drag(from, to, steps = 4) {
        await this.press(from);
        await this.moveTo(to, steps);
        await this.release();
    }

    async wheel(place, deltaY) {
        const [x, y] = await this.pointOf(place);
        await this.page.mouse.move(x, y);
        await this.page.mouse.wheel(0, deltaY);
        await this.settle();
    }

    // --- touch, by the debugging protocol; the context must have been made with {touch: true}

    async touch(type, points) {
        await this.cdp.send("Input.dispatchTouchEvent", {
            type,
            touchPoints: points.map(([x, y], id) => ({ x, y, id, radiusX: 8, radiusY: 8, force: 1 })),
        });
        await this.frame();
    }

    async touchTap(place) {
        await this.touch("touchStart", [await this.pointOf(place)]);
        await this.touch("touchEnd", []);
        await this.settle();
    }

    async touchPress(place) {
        await this.touch("touchStart", [await this.pointOf(place)]);
    }

    async touchMove(from, to, steps = 4) {
        const [ax, ay] = await this.pointOf(from);
        const [bx, by] = await this.pointOf(to);
        for (let i = 1; i <= steps; ++i) {
            const t = i / steps;
            await this.touch("touchMove", [[ax + (bx - ax) * t, ay + (by - ay) * t]]);
        }
    }

    async touchRelease() {
        await this.touch("touchEnd", []);
        await this.settle();
    }

    async touchDrag(from, to, steps = 4) {
        const start = await this.pointOf(from);
        await this.touchPress(start);
        await this.touchMove(start, to, steps);
        await this.touchRelease();
    }

    // Two fingers about a place, from one distance between them to another, in CSS pixels.
    async pinch(place, fromDistance, toDistance, steps = 4) {
        const [x, y] = await this.pointOf(place);
        const fingers = (distance) => [[x - distance / 2, y], [x + distance / 2, y]];
        await this.touch("touchStart", fingers(fromDistance));
        for (let i = 1; i <= steps; ++i) {
            await this.touch("touchMove", fingers(fromDistance + ((toDistance - fromDistance) * i) / steps));
        }
        await this.touchRelease();
    }

    // --- keys: "Enter", "Tab", "Control+z", "Shift+ArrowLeft", …

    async key(...names) {
        for (const name of names) {
            const parts = name.split("+");
            const last = parts.pop() || "+";
            for (const held of parts) await this.page.keyboard.down(held);
            await this.page.keyboard.down(last);
            await this.frame();
            await this.page.keyboard.up(last);
            for (const held of parts.reverse()) await this.page.keyboard.up(held);
            await this.settle();
        }
    }

    // --- looking

    // All input so far has been seen and drawn.
    frame() {
        return this.waitFor((probe) => probe.inputSeen, "a frame with the input");
    }

    async shot(name) {
        if (process.env.LOOM_SHOTS) await this.picture(name);
    }

    async picture(name) {
        const folder = join(root, "build/shots");
        mkdirSync(folder, { recursive: true });
        const { scale = 1 } = this.browser.options;
        if (scale < 1) await this.drawAt(1);
        // Playwright's own would go back to the scale that the browser was opened with.
        const { data } = await this.cdp.send("Page.captureScreenshot", { format: "png" });
        writeFileSync(join(folder, name + ".png"), Buffer.from(data, "base64"));
        if (scale < 1) await this.drawAt(scale);
    }

    // From now on so many device pixels to a CSS pixel.
    async drawAt(deviceScaleFactor) {
        const { width, height } = this.page.viewportSize();
        await this.cdp.send("Emulation.setDeviceMetricsOverride", { width, height, deviceScaleFactor,
            screenWidth: width, screenHeight: height, mobile: false });
        // As a browser does when it is zoomed; the override alone tells a page at rest nothing.
        await this.page.evaluate(() => window.dispatchEvent(new Event("resize")));
        await this.page.waitForFunction((scale) => devicePixelRatio === scale
            && (!window.loomProbe || (canvas.width === Math.floor(innerWidth * scale) && loomProbe().settled)),
        deviceScaleFactor, { timeout: patience_ms });
    }

    async downloadOf(action) {
        const [download] = await Promise.all([
            this.page.waitForEvent("download", { timeout: patience_ms }), action()]);
        return { name: download.suggestedFilename(), path: await download.path() };
    }
}

// Ends the browser, and with it whatever waits for it, when the test has taken too long.
async function withinLimit(browser, seconds, run) {
    let timer = null;
    const late = new Promise((_, refuse) => {
        timer = setTimeout(() => {
            browser.kill().catch(() => {});
            refuse(new Difference("the test hangs", `its end within ${seconds} s`, "it was still running"));
        }, seconds * 1000);
    });
    try {
        await Promise.race([run(), late]);
    } finally {
        clearTimeout(timer);
    }
}

async function runOne(test) {
    const browser = new Browser({ scale: testScale, shared: !test.options.profile, ...test.options });
    try {
        await withinLimit(browser, test.options.limit_s ?? limit_s, async () => {
            await test.body(await browser.launch(), browser);
        });
        if (browser.errors.length) throw new Difference("errors in the page", "none", browser.errors.join("; "));
        return null;
    } catch (error) {
        try {
            await withinLimit(browser, 60, () =>
                browser.page.picture("failed-" + test.name.replace(/[^a-z0-9]+/gi, "-").toLowerCase()));
        } catch {
            // the page is gone
        }
        const also = browser.errors.length ? `\n      page said: ${browser.errors.join("; ")}` : "";
        return error instanceof Difference ? error.message + also : (error.stack ?? String(error)) + also;
    } finally {
        await browser.close().catch(() => {});
    }
}

// Serves build/site while body runs; returns what body returns.
export async function withSite(body) {
    server = await serve(join(root, "build/site"), 0);
    try {
        return await body();
    } finally {
        server.close();
    }
}

// Runs every registered test whose name contains `only`, several at once; returns {passed, failed}.
export function runTests({ only = "", atOnce = cpus().length } = {}) {
    return withSite(() => runEach(tests.filter((test) => test.name.includes(only)), atOnce));
}

async function runEach(chosen, atOnce) {
    // Those that take long begin first; the results are told in the tests' order.
    const waiting = [...chosen].sort((a, b) => (b.options.limit_s ?? limit_s) - (a.options.limit_s ?? limit_s));
    const results = new Map();
    let told = 0;
    const tell = () => {
        for (; results.has(chosen[told]); ++told) console.log(results.get(chosen[told]).line);
    };
    const work = async () => {
        for (let test = waiting.shift(); test; test = waiting.shift()) {
            const begin = Date.now();
            const fault = await runOne(test);
            const named = `${test.name} (${((Date.now() - begin) / 1000).toFixed(1)} s)`;
            results.set(test, { fault, line: fault ? `  FAILED  ${named}\n      ${fault}` : `  passed  ${named}` });
            tell();
        }
    };
    await Promise.all(Array.from({ length: atOnce }, work));
    await Promise.all(Browser.idle.map((each) => each.close()));
    const failed = [...results.values()].filter(({ fault }) => fault).length;
    return { passed: chosen.length - failed, failed };
}
