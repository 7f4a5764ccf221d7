// The page as a host: it rests when nothing moves, keeps what was made, reads and writes files,
// takes fingers and keys, tells screen readers.
import { readFileSync, writeFileSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { benchTest, check } from "./harness.mjs";
import { onBoard, PointerHands } from "./hands.mjs";

const refs = (probe) => probe.bench.parts.map((part) => part.ref);

// All that has been done so far is in the browser's storage.
const isKept = (page) => page.waitFor((p) => p.saved === p.revision, "the last change is kept");

// Two turns of real time for frames to come that should not.
const later = (page) => page.page.evaluate(() => new Promise((done) => setTimeout(done, 600)));

// --- frames

benchTest("nothing is drawn while nothing changes", async (page) => {
    await page.open();
    const before = await page.probe();
    check.equal(before.framesWanted, 0, "frames wanted at rest");
    check.equal(before.moving, false, "something moves by itself");
    await later(page);
    check.equal((await page.probe("frames")).frames, before.frames, "frames drawn at rest");
    await page.page.mouse.move(600, 300);
    await page.waitFor((p, drawn) => p.frames > drawn, "a frame after the pointer moved", before.frames);
});

benchTest("the bench fills the window at its own sharpness", async (page) => {
    await page.open();
    await page.page.setViewportSize({ width: 900, height: 700 });
    await page.waitFor((p) => p.rects["header/help"][0] + p.rects["header/help"][2] < 900,
        "the header ends within the narrower window");
    const size = await page.page.evaluate(() => [canvas.width, canvas.height]);
    check.equal(size, [1800, 1400], "device pixels of the canvas");
}, { scale: 2 });

benchTest("a screen of four device pixels to one is drawn with two", async (page) => {
    await page.open();
    check.equal(await page.page.evaluate(() => canvas.width), 1600, "device pixels across 800");
}, { width: 800, height: 600, scale: 4 });

benchTest("everything is larger on a stand", async (page) => {
    await page.open("large=1.3");
    const { rects } = await page.probe("rects");
    check.that(rects["header/help"][3] > 50, "the help button is taller than 44 px", rects["header/help"]);
}, { width: 1920, height: 1080 });

// --- keeping

benchTest("the bench is as it was after the browser is killed in the middle of a drag", async (page, browser) => {
    await page.open();
    const hands = new PointerHands(page);
    await hands.lay("B1", [0.2, 0.5]);
    await hands.lay("E1", [0.8, 0.2]);
    await isKept(page);
    await page.press("tray/S4");
    await page.moveTo(await onBoard(page, [0.5, 0.3]));
    check.equal((await page.probe("hand")).hand, { ref: "S4", what: "part" }, "what is in the hand");
    const again = await browser.reopen();
    const probe = await again.probe();
    check.equal(refs(probe), ["B1", "E1"], "parts on the bench");
    check.equal(probe.exercise, "headlamp", "the exercise that is open");
    await again.key("Control+z");
    await again.waitFor((p) => p.bench.parts.length === 1, "what was done before the kill can be undone");
    await again.shot("reopened-after-kill");
}, { profile: true });

async function openJob(page, name) {
    await page.tap("leaf/course");
    await page.tap(name);
    const { rects } = await page.probe("rects");
    if (rects[name + "/yes"]) await page.tap(name + "/yes");
}

benchTest("each job keeps its own bench", async (page, browser) => {
    await page.open("exercise=headlamp");
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    await openJob(page, "course/twenty-four-volts");
    await page.waitFor((p) => p.document === "twenty-four-volts", "the other job is open");
    check.equal(refs(await page.probe("bench")), [], "its bench is empty");
    await openJob(page, "course/headlamp");
    await page.waitFor((p) => p.document === "headlamp" && p.bench.parts.length === 1,
        "the first job is as it was left");
    await openJob(page, "course/free");
    await page.waitFor((p) => p.document === "free", "the free bench is open");
    const again = await browser.reopen();
    check.equal((await again.probe("document")).document, "free", "what was open last opens again");
}, { profile: true });

benchTest("starting again begins the job anew and keeps that", async (page, browser) => {
    await page.open("exercise=headlamp");
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    await isKept(page);
    await openJob(page, "paper/restart");
    await page.waitFor((p) => p.bench.parts.length === 0 && p.saved === p.revision, "an empty bench, kept");
    const again = await browser.reopen();
    check.equal(refs(await again.probe("bench")), [], "parts after reopening");
}, { profile: true });

async function storedText(page, key) {
    return page.page.evaluate((wanted) => new Promise((done) => {
        const request = indexedDB.open("loomwright", 1);
        request.onsuccess = () => {
            const read = request.result.transaction("documents").objectStore("documents").get(wanted);
            read.onsuccess = () => { request.result.close(); done(read.result); };
        };
    }), key);
}

async function store(page, key, record) {
    await page.page.evaluate(([at, value]) => new Promise((done) => {
        const request = indexedDB.open("loomwright", 1);
        request.onsuccess = () => {
            const work = request.result.transaction("documents", "readwrite");
            work.objectStore("documents").put(value, at);
            work.oncomplete = () => { request.result.close(); done(); };
        };
    }), [key, record]);
}

benchTest("a page left open does not overwrite newer work", async (page) => {
    await page.open("exercise=headlamp");
    const hands = new PointerHands(page);
    await hands.lay("B1", [0.2, 0.5]);
    await isKept(page);
    const record = await storedText(page, "attempt:headlamp");
    await store(page, "attempt:headlamp", { revision: record.revision + 1, text: record.text });
    await hands.lay("E1", [0.8, 0.2]);
    await page.page.waitForFunction(() =>
        document.getElementById("status").textContent.includes("another window"));
    check.equal((await storedText(page, "attempt:headlamp")).text, record.text, "what storage holds");
    check.equal(refs(await page.probe("bench")), ["B1", "E1"], "the bench in this window");
    await page.shot("overtaken");
});

benchTest("a record that cannot be read is set aside, and the place is named", async (page) => {
    await page.open("exercise=headlamp");
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    await isKept(page);
    const record = await storedText(page, "attempt:headlamp");
    const broken = record.text.replace(/"length_m"|"at_m"|"at"/, '"elsewhere"');
    check.that(broken !== record.text, "the record was broken for the test", record.text.slice(0, 300));
    await store(page, "attempt:headlamp", { revision: record.revision, text: broken });
    await page.open("exercise=headlamp");
    const probe = await page.probe();
    check.that(/\/[a-z]/.test(probe.notice), "the notice names a place", probe.notice);
    check.equal(refs(probe), [], "the job starts afresh");
    check.equal((await storedText(page, "attempt:headlamp:unreadable")).text, broken, "what is set aside");
    await page.shot("record-set-aside");
});

benchTest("without storage the bench works, says so, and keeps each job while the page lives", async (page) => {
    await page.page.addInitScript(() => Object.defineProperty(window, "indexedDB", { value: undefined }));
    await page.open("exercise=headlamp");
    await page.page.waitForFunction(() =>
        document.getElementById("status").textContent.includes("keeps nothing"));
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    await openJob(page, "course/relay");
    await page.waitFor((p) => p.document === "relay", "the other job is open");
    await openJob(page, "course/headlamp");
    await page.waitFor((p) => p.document === "headlamp" && p.bench.parts.length === 1, "the first job again");
});

// --- files

function fileWith(name, text) {
    const path = join(mkdtempSync(join(tmpdir(), "loom-file-")), name);
    writeFileSync(path, text);
    return path;
}

async function choose(page, path) {
    await page.tap("leaf/course");
    const chooser = page.page.waitForEvent("filechooser");
    await page.tap("paper/open");
    if ((await page.probe("rects")).rects["paper/open/yes"]) await page.tap("paper/open/yes");
    await (await chooser).setFiles(path);
}

const saveFile = async (page) => {
    await page.tap("leaf/course");
    return page.downloadOf(() => page.tap("paper/save"));
};

benchTest("a bench goes into a file and comes back", async (page) => {
    await page.open("exercise=headlamp");
    const hands = new PointerHands(page);
    await hands.lay("B1", [0.2, 0.5]);
    await hands.lay("E1", [0.8, 0.2]);
    const before = (await page.probe("bench")).bench;
    const { name, path } = await saveFile(page);
    check.equal(name, "headlamp.loom.json", "the file's name");
    check.equal(JSON.parse(readFileSync(path, "utf8")), before, "the file is the bench");
    await choose(page, path);
    await page.waitFor((p) => p.document === "file", "the file is on the bench");
    const probe = await page.probe();
    check.equal(probe.bench, before, "the bench that was opened");
    check.equal(probe.exercise, "", "it lies on the free bench");
});

const wrongFiles = {
    "half a file": [(text) => text.slice(0, text.length / 2), /line|\d/],
    "a later version": [(text) => text.replace('"version":1', '"version":99'), /99|later/],
    "a part of no kind": [(text) => text.replace('"battery"', '"teapot"'), /\/parts|\/kit|teapot/],
    "no text at all": [() => "\u0000\u0001\u0002", /./],
};

benchTest("a file that is wrong is refused by its place and the bench stays", async (page) => {
    await page.open("exercise=headlamp");
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    const before = (await page.probe("bench")).bench;
    const good = JSON.stringify(before);
    for (const [name, [spoil, expected]] of Object.entries(wrongFiles)) {
        const text = spoil(good);
        check.that(text !== good, `${name} differs from the good file`);
        await choose(page, fileWith("wrong.loom.json", text));
        await page.waitFor((p) => p.notice.includes("wrong.loom.json"), `a notice about ${name}`);
        const probe = await page.probe();
        check.that(expected.test(probe.notice), `${name}: the notice names what is wrong`, probe.notice);
        check.equal(probe.bench, before, `the bench after ${name}`);
        await page.shot("refused-" + name.replaceAll(" ", "-"));
        await page.key("Escape");
    }
});

benchTest("a file too large is refused before it is read", async (page) => {
    await page.open();
    await choose(page, fileWith("large.loom.json", " ".repeat(3 << 20)));
    const probe = await page.waitFor((p) => p.notice.includes("large.loom.json"), "a notice");
    check.that(probe.notice.includes("3.0 MB"), "the notice gives its size", probe.notice);
});

benchTest("a file dropped on the page is opened", async (page) => {
    await page.open("exercise=headlamp");
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    const text = JSON.stringify((await page.probe("bench")).bench);
    await page.page.evaluate((content) => {
        const data = new DataTransfer();
        data.items.add(new File([content], "dropped.loom.json"));
        canvas.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    }, text);
    await page.waitFor((p) => p.document === "file" && p.bench.parts.length === 1, "the dropped bench");
});

benchTest("an opened file and the learner's own free bench keep apart", async (page, browser) => {
    await page.open("exercise=headlamp");
    await openJob(page, "course/free");
    await page.waitFor((p) => p.document === "free", "the free bench");
    await new PointerHands(page).lay("B1", [0.3, 0.9]);
    await isKept(page);
    const file = (await page.probe("bench")).bench;
    file.parts = [];
    await choose(page, fileWith("other.loom.json", JSON.stringify(file)));
    await page.waitFor((p) => p.document === "file" && p.saved === p.revision, "the file is open, kept");
    const again = await browser.reopen();
    check.equal((await again.probe("document")).document, "file", "the file is still on the bench");
    await openJob(again, "paper/restart");
    await again.waitFor((p) => p.document === "free" && p.bench.parts.length === 1,
        "the learner's own free bench as it was");
}, { profile: true });

// --- fingers

benchTest("two fingers pinch, and what one of them carried is let go", async (page) => {
    await page.open("exercise=headlamp");
    await page.touchDrag("tray/B1", await onBoard(page, [0.2, 0.5]));
    await page.waitFor((p) => p.bench.parts.length === 1, "the battery lies on the bench");
    const before = await page.probe();
    const [x, y] = await page.pointOf("part/B1");
    await page.touch("touchStart", [[x, y]]);
    await page.touch("touchMove", [[x + 60, y]]);
    check.equal((await page.probe("hand")).hand, { ref: "B1", what: "part" }, "what the finger carries");
    await page.touch("touchStart", [[x + 60, y], [x + 120, y]]);
    for (let i = 1; i <= 4; ++i) await page.touch("touchMove", [[x + 60, y], [x + 120 + 30 * i, y]]);
    await page.touchRelease();
    const after = await page.probe();
    check.equal(after.hand, null, "what is in the hand");
    check.equal(after.bench, before.bench, "the bench");
    check.that(after.camera.zoom > 1.5, "the board is nearer", after.camera);
}, { width: 768, height: 1024, touch: true });

benchTest("a lifted finger points at nothing", async (page) => {
    await page.open();
    await page.touchTap("header/help");
    check.equal((await page.probe("pointer")).pointer, null, "where the pointer is");
}, { width: 768, height: 1024, touch: true, scale: 2 });

// --- wheel and trackpad

benchTest("the wheel and the trackpad's pinch bring the board nearer", async (page) => {
    await page.open();
    const place = await onBoard(page, [0.5, 0.3]);
    await page.wheel(place, -200);
    const once = await page.waitFor((p) => p.camera.zoom > 1.01, "nearer by the wheel");
    await page.page.keyboard.down("Control");
    await page.page.mouse.wheel(0, -40);
    await page.page.keyboard.up("Control");
    await page.waitFor((p, zoom) => p.camera.zoom > zoom * 1.1, "nearer by the pinch", once.camera.zoom);
    check.equal(await page.page.evaluate(() => visualViewport.scale), 1, "the page's own zoom");
});

// --- keys

benchTest("Escape and then Tab leaves the bench, Tab alone does not", async (page) => {
    await page.open();
    const owner = () => page.page.evaluate(() => document.activeElement.id || document.activeElement.tagName);
    await page.key("Tab", "Tab");
    check.equal(await owner(), "canvas", "who has the keyboard");
    await page.key("Escape", "Tab");
    check.that((await owner()) !== "canvas", "the keyboard has left the canvas", await owner());
    await page.page.focus("#canvas");
    await page.tap("header/help");
    await page.key("Escape", "Tab");
    check.equal(await owner(), "canvas", "who has the keyboard after Escape has closed the help");
});

benchTest("the browser's own keys stay the browser's", async (page) => {
    await page.open();
    const prevented = await page.page.evaluate(() => {
        const seen = {};
        const keys = { F5: {}, F12: {}, l: { ctrlKey: true }, ArrowLeft: { altKey: true }, z: { ctrlKey: true } };
        for (const [key, held] of Object.entries(keys)) {
            const event = new KeyboardEvent("keydown", { key, code: key, bubbles: true, cancelable: true, ...held });
            canvas.dispatchEvent(event);
            seen[key] = event.defaultPrevented;
        }
        return seen;
    });
    check.equal(prevented, { F5: false, F12: false, l: false, ArrowLeft: false, z: true }, "keys taken from the browser");
});

// --- screen readers

benchTest("everything that can be pressed is a button for screen readers, and works", async (page) => {
    await page.open("exercise=headlamp");
    const { rects } = await page.probe("rects");
    const names = await page.page.evaluate(() =>
        [...document.querySelectorAll("#mirror button")].map((button) => button.dataset.name));
    check.equal([...names].sort(), Object.keys(rects).sort(), "names in the mirror");
    await page.page.evaluate(() => document.querySelector('#mirror [data-name="tray/B1"]').click());
    await page.waitFor((p) => p.bench.parts.length === 1, "the battery lies on the bench");
    await page.page.waitForFunction(() =>
        [...document.querySelectorAll("#mirror button")].some((button) => button.dataset.name === "part/B1"));
    const label = await page.page.evaluate(() => canvas.getAttribute("aria-label"));
    check.that(label.length > 3 && !label.includes("/"), "the canvas has a name", label);
});

benchTest("a refusal is said in the status line", async (page) => {
    await page.open("bench=nowhere");
    const said = await page.page.waitForFunction(() => document.getElementById("status").textContent);
    check.that((await said.jsonValue()).includes("nowhere"), "the sentence", await said.jsonValue());
});

benchTest("reduced motion is heeded, and when it changes", async (page) => {
    await page.open();
    check.equal((await page.probe("reducedMotion")).reducedMotion, true, "at the start");
    await page.page.emulateMedia({ reducedMotion: "no-preference" });
    await page.waitFor((p) => p.reducedMotion === false, "after the change");
}, { reducedMotion: "reduce" });

// --- graphics lost

benchTest("a lost graphics context loads the bench again as it was", async (page) => {
    await page.open("exercise=headlamp");
    await new PointerHands(page).lay("B1", [0.2, 0.5]);
    await page.page.evaluate(() => {
        window.before = true;
        canvas.getContext("webgl").getExtension("WEBGL_lose_context").loseContext();
    });
    await page.page.waitForFunction(() => !window.before && typeof window.loomProbe === "function");
    await page.waitFor((p) => p.settled, "the bench is there again");
    check.equal(refs(await page.probe("bench")), ["B1"], "parts on the bench");
});

// --- the address

benchTest("a built-in bench is opened by the address", async (page) => {
    await page.open("bench=pippin");
    const probe = await page.probe();
    check.equal(probe.bench.cables.length > 30, true, "Pippin's cables are there");
    check.equal(probe.document, "bench:pippin", "the document");
});
