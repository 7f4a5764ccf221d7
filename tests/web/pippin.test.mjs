// The whole of Pippin by real pointer events, as on the real thing: every cable from the plan, ends
// made by hand, cross-checked, powered up in order, driven, put away. What is joined to what is read
// from the wirings that the lesson tests use; nothing here reaches into the page but the probe.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { benchTest, check } from "./harness.mjs";
import { PointerHands } from "./hands.mjs";

const lessonTests = join(dirname(fileURLToPath(import.meta.url)), "../lessons");
const wirings = JSON.parse(readFileSync(join(lessonTests, "04-pippin.wirings.json"), "utf8"));
const takesOf = (block) => wirings.blocks[block].filter(([word]) => word === "take");

const terminal = (spoken) => `terminal/${spoken.replace(" ", "/")}`;
const handmade = new Set(["P-10", "P-15", "P-20", "P-22"]);

async function cableCalled(page, label) {
    const { bench } = await page.probe("bench");
    return bench.cables.filter((cable) => cable.label === label).pop();
}

// An end that has just been joined is made in the close-up; a closed screw is opened there first.
async function makeWell(page) {
    await page.waitFor((p) => p.rects["closeup/well"], "the close-up is open");
    await page.shot("film-2-end");
    await page.tap("closeup/well");
    await page.tap("closeup/done");
    await page.waitFor((p) => !p.rects["closeup/sheet"], "the close-up is shut");
}

async function joinByHand(page, label, end, to) {
    const isJoined = (p, [name, which]) =>
        p.bench.cables.some((cable) => cable.label === name && cable.ends[which].at);
    for (let tries = 0; tries < 3; ++tries) {
        const cable = await cableCalled(page, label);
        await page.drag(`end/${cable.id}/${end}`, terminal(to));
        if (isJoined(await page.probe("bench"), [label, end])) break;
        await page.tap("closeup/open-screw"); // refused while it is closed
        await page.key("Escape");
    }
    await page.waitFor(isJoined, `${label} is joined at ${to}`, [label, end]);
    await makeWell(page);
}

// The plan's button brings the cable into the hand; a tap joins each end.
async function lay(page, [, label, from, to]) {
    await page.tap("plan/take");
    await page.waitFor((p, name) => p.hand && p.hand.label === name, `${label} is in the hand`, label);
    if (handmade.has(label)) {
        await layByHand(page, label, from, to);
        return;
    }
    await page.tap(terminal(from));
    await page.tap(terminal(to));
    await page.waitFor((p, name) => !p.hand && p.bench.cables.filter((cable) => cable.label === name)
        .every((cable) => cable.ends[0].at && cable.ends[1].at), `${label} is joined`, label);
}

async function layByHand(page, label, from, to) {
    await page.tap([760, 400]);
    await page.waitFor((p, name) => p.bench.cables.some((cable) => cable.label === name),
        `${label} lies on the board`, label);
    await joinByHand(page, label, 0, from);
    await joinByHand(page, label, 1, to);
}

// A card lies over the board until it is closed.
async function onCard(page, thing, action) {
    await page.tap(thing);
    await page.tap(action);
    await page.key("Escape");
}

async function liftIn(page, ref) {
    await new PointerHands(page).lay(ref, wirings.places[ref]);
    await onCard(page, `part/${ref}`, "card/position/1");
}

async function layBatteryCables(page) {
    await page.tap("leaf/plan");
    await page.tap("plan/P-02");
    for (const take of [...takesOf("ends"), ...takesOf("link")]) await lay(page, take);
}

// Tapped until it is in the record: the paper may still be turning to the row.
async function tapOnRecord(page, name) {
    const { revision } = await page.probe("revision");
    for (let tries = 0; tries < 3; ++tries) {
        await page.tap(name);
        if ((await page.probe("revision")).revision > revision) return;
    }
    check.that(false, `"${name}" is in the record after three taps`);
}

// Looks at both ends of each cable and marks it; cables of one label are marked together.
async function crossCheck(page) {
    await page.tap("leaf/sheet");
    for (let marked = 0;; ++marked) {
        if ((await page.probe("rects")).rects["sheet/next"]) await page.tap("sheet/next");
        if (!(await page.probe("rects")).rects["sheet/look/0"]) break;
        await tapOnRecord(page, "sheet/look/0");
        await tapOnRecord(page, "sheet/look/1");
        if (marked === 20) await page.shot("film-4-cross-check");
        await page.tap("sheet/mark");
        if (!(await page.probe("rects")).rects["sheet/next"]) break;
    }
    await page.tap("sheet/hand-in");
    await page.shot("film-5-sheet");
}

// A place on a part, as shares of its width and height.
async function placeOn(page, name, across, down) {
    const [x, y, width, height] = await page.rectOf(name);
    return [x + width * across, y + height * down];
}

async function powerUp(page) {
    await page.tap("leaf/power");
    await page.tap("rail/fit");
    await page.tap("rail/key");
    await page.tap("part/Q1");
    await page.tap(await placeOn(page, "part/Q1", 0.5, 0.4));
    await page.key("Escape");
    await page.waitFor((p) => p.live.supply.live, "the isolator is on");
    await page.tap("part/S1");
    await page.key("Escape");
    await page.waitFor((p) => p.live.parts.S1.lamp.brightness > 0.5, "the live lamp is lit");
    await page.tap("power/lamp");
    await page.tap("power/call");
    await page.shot("film-6-live");
}

async function drive(page, towards, sign) {
    await page.tap(await placeOn(page, "part/S2", towards, 0.4));
    await page.key("Escape");
    const { time_s } = await page.probe("time_s");
    await page.press("part/S3");
    const wanted = sign * 200;
    await page.waitFor((p, speed) => (speed > 0 ? p.live.parts.M1.speed > speed : p.live.parts.M1.speed < speed),
        `the motor runs at ${wanted} rad/s`, wanted);
    await page.waitFor((p, from) => p.time_s > from + 0.7, "half a second of driving is on record", time_s);
    await page.shot(sign > 0 ? "film-7-forward" : "reverse");
    await page.release();
    const { time_s: let_go } = await page.probe("time_s");
    await page.waitFor((p) => Math.abs(p.live.parts.M1.speed) < 1, "the motor brakes to rest");
    await page.waitFor((p, from) => p.time_s > from + 0.7, "and half a second after it", let_go);
}

async function putAway(page) {
    await page.key("Escape");
    await page.tap("part/S1");
    await page.key("Escape");
    await page.tap(await placeOn(page, "part/Q1", 0.5, 0.4));
    await page.tap("card/position/0");
    await page.key("Escape");
    const link = await cableCalled(page, "P-01");
    await onCard(page, `cable/${link.id}`, "card/remove");
    for (const label of ["P-02", "P-03"]) {
        const cable = await cableCalled(page, label);
        await onCard(page, `cable/${cable.id}`, "card/off/0");
    }
    for (const ref of ["B1", "B2"]) await onCard(page, `part/${ref}`, "card/remove");
}

benchTest("the whole of Pippin is built from the plan, cross-checked, powered up and driven", async (page) => {
    await page.open("exercise=pippin");
    await page.tap("leaf/plan");
    await page.tap("plan/P-04");
    await page.shot("film-1-plan");
    for (const take of takesOf("loom")) await lay(page, take);
    await page.shot("film-3-loom");
    for (const ref of ["B1", "B2"]) await liftIn(page, ref);
    await layBatteryCables(page);
    await crossCheck(page);
    await powerUp(page);
    await drive(page, 0.2, 1);
    await drive(page, 0.8, -1);
    await putAway(page);
    await page.tap("leaf/job");
    await page.tap("paper/check");
    const { verdict } = await page.waitFor((p) => p.verdict && !p.verdict.stale, "a verdict");
    check.equal(verdict.checks.filter((row) => !row.passed).map((row) => row.say), [], "nothing left to say");
    await page.shot("film-8-done");
}, { width: 1280, height: 800 });
