// Each exercise is solved as a learner would: by pointer, by finger, the first by keys alone; wrong
// wirings are refused with their own sentence; what goes wrong is seen to go wrong.
import { benchTest, check } from "./harness.mjs";
import { KeyHands, PointerHands, TouchHands } from "./hands.mjs";

const tablet = { width: 768, height: 1024, touch: true };

async function layAll(hands, places) {
    for (const [ref, place] of Object.entries(places)) await hands.lay(ref, place);
}

async function wireAll(hands, cables) {
    for (const [from, to] of cables) await hands.wire(from, to);
}

// The wide screen has its button on the paper, the tablet on the strip above the board.
async function askForCheck(page, hands) {
    const { rects } = await page.probe("rects");
    await hands.choose(rects["paper/check"] ? "paper/check" : "strip/check");
}

async function solved(page, hands) {
    await askForCheck(page, hands);
    const { verdict } = await page.waitFor((p) => p.verdict && !p.verdict.stale, "a verdict");
    check.equal(verdict.checks.filter((row) => !row.passed).map((row) => row.say), [], "nothing left to say");
    check.that(verdict.solved, "all marks", verdict);
}

async function firstFault(page, hands) {
    await askForCheck(page, hands);
    const { verdict } = await page.waitFor((p) => p.verdict && !p.verdict.stale, "a verdict");
    check.that(!verdict.solved, "not all marks");
    return verdict.checks.find((row) => !row.passed);
}

// --- 1. A headlamp that can be switched

const headlampParts = { B1: [0.16, 0.5], F3: [0.28, 0.16], S4: [0.52, 0.18], E1: [0.84, 0.22] };
const headlampCables = [["F3/out", "S4/in"], ["S4/out", "E1/in"], ["E1/out", "B1/minus"], ["B1/plus", "F3/in"]];

async function buildHeadlamp(hands) {
    await layAll(hands, headlampParts);
    await hands.fit("blade/3", "F3");
    await wireAll(hands, headlampCables);
}

async function headlampShines(page, hands) {
    await hands.choose("part/S4");
    await page.waitFor((p) => p.live.parts.E1.brightness > 0.8, "the headlamp shines");
}

for (const [name, Hands, options] of [["pointer", PointerHands, {}], ["finger", TouchHands, tablet],
    ["keys alone", KeyHands, {}]]) {
    benchTest(`headlamp, solved by ${name}`, async (page) => {
        await page.open("exercise=headlamp");
        const hands = new Hands(page);
        await buildHeadlamp(hands);
        await page.shot(`headlamp-wired-${name.replace(" ", "-")}`);
        await headlampShines(page, hands);
        await page.shot(`headlamp-shines-${name.replace(" ", "-")}`);
        await solved(page, hands);
        await page.shot(`headlamp-solved-${name.replace(" ", "-")}`);
    }, options);
}

benchTest("a headlamp that S4 does not switch is refused with its reason", async (page) => {
    await page.open("exercise=headlamp");
    const hands = new PointerHands(page);
    await layAll(hands, headlampParts);
    await hands.fit("blade/3", "F3");
    await wireAll(hands, [["F3/out", "E1/in"], ["E1/out", "B1/minus"], ["B1/plus", "F3/in"]]);
    const fault = await firstFault(page, hands);
    await page.shot("headlamp-refused");
    check.equal(fault.check, "dark", "the check that fails");
    check.that(fault.say.includes("with S4 off"), "the sentence says when", fault.say);
});

benchTest("a blade too small for the lamp's first rush or a short opens, and is replaced", async (page) => {
    await page.open("exercise=headlamp");
    const hands = new PointerHands(page);
    await layAll(hands, headlampParts);
    await hands.fit("blade/3", "F3");
    await wireAll(hands, [["F3/out", "S4/in"], ["S4/out", "B1/minus"], ["B1/plus", "F3/in"]]);
    await hands.choose("part/S4");
    await page.waitFor((p) => p.live.parts.F3.open, "F3 opens");
    await page.shot("fuse-blown");
    const { events } = await page.probe("events");
    check.that(events.some((line) => line.includes("F3")), "the log names F3", events);
    await hands.choose("part/S4");
    await hands.fit("blade/3", "F3");
    await page.waitFor((p) => !p.live.parts.F3.open, "a fresh blade is whole");
});

// --- 2. Twenty-four volts

const supplyParts = { B1: [0.14, 0.56], B2: [0.4, 0.56], F1: [0.62, 0.36], Q1: [0.9, 0.5], X1: [0.5, 0.14] };
const supplyCables = [["B1/minus", "X1/10 lower"], ["B2/plus", "F1/in"], ["F1/out", "Q1/in"], ["Q1/out", "X1/1 lower"]];

for (const [name, Hands, options] of [["pointer", PointerHands, {}], ["finger", TouchHands, tablet]]) {
    benchTest(`twenty-four volts, solved by ${name}`, async (page) => {
        await page.open("exercise=twenty-four-volts");
        const hands = new Hands(page);
        await layAll(hands, supplyParts);
        await wireAll(hands, [...supplyCables, ["B1/plus", "B2/minus"]]);
        await page.shot(`supply-wired-${name}`);
        await solved(page, hands);
        await hands.choose("rail/key");
        await hands.choose("part/Q1");
        await hands.tapAt(await dial(page));
        const { live } = await page.waitFor((p) => p.live.supply.voltage > 24, "24 V at X1");
        check.near(live.supply.voltage, 25.7, 0.3, "two full batteries in series");
        await page.shot(`supply-live-${name}`);
    }, options);
}

// The middle of the isolator's dial.
async function dial(page) {
    const [x, y, w, h] = await page.rectOf("part/Q1");
    return [x + w / 2, y + h * 0.4];
}

benchTest("a reversed battery gives 0 V and the check says so", async (page) => {
    await page.open("exercise=twenty-four-volts");
    const hands = new PointerHands(page);
    await layAll(hands, supplyParts);
    await wireAll(hands, [["B1/minus", "X1/10 lower"], ["B2/minus", "F1/in"], ["F1/out", "Q1/in"],
        ["Q1/out", "X1/1 lower"], ["B1/plus", "B2/plus"]]);
    const fault = await firstFault(page, hands);
    check.equal(fault.check, "volts", "the check that fails");
    check.that(/works against/.test(fault.say), "the sentence says that one works against the other", fault.say);
    await hands.choose("rail/key");
    await hands.choose("part/Q1");
    await hands.tapAt(await dial(page));
    await page.settle();
    await page.shot("link-reversed");
});

benchTest("a battery shorted by its own link cooks the cable", async (page) => {
    await page.open("exercise=twenty-four-volts");
    const hands = new PointerHands(page);
    await layAll(hands, { B1: [0.3, 0.4] });
    await hands.wire("B1/plus", "B1/minus");
    const hot = await page.waitFor((p) => Object.values(p.live.cables)[0].temp > 353, "the sleeve softens");
    check.that(Object.values(hot.live.cables).some((c) => Math.abs(c.current) > 500), "hundreds of amperes",
        hot.live.cables);
    await page.shot("battery-shorted-soft");
    await page.waitFor((p) => p.bench.cables[0].condition === "charred" || p.bench.cables[0].condition === "parted",
        "the sleeve is charred");
    await page.shot("battery-shorted-charred");
});

// --- 3. A relay does the heavy work

const relayParts = { F2: [0.62, 0.5], S3: [0.8, 0.12], K1: [0.86, 0.36], M1: [0.8, 0.6] };
// Reels of exercise 3: 0–2 6 mm², 3–5 1 mm².
async function wireRelay(hands) {
    await hands.choose("tray/reel/0");
    await wireAll(hands, [["X1/1 upper", "K1/normally open"], ["K1/common", "M1/lead 1"]]);
    await hands.choose("tray/reel/1");
    await wireAll(hands, [["M1/lead 2", "X1/10 upper"], ["K1/normally closed", "X1/10 upper"]]);
    await hands.choose("tray/reel/3");
    await wireAll(hands, [["X1/1 lower", "F2/in"], ["F2/out", "S3/in"], ["S3/out", "K1/coil a"]]);
    await hands.choose("tray/reel/5");
    await wireAll(hands, [["K1/coil b", "X1/10 lower"]]);
}

for (const [name, Hands, options] of [["pointer", PointerHands, {}], ["finger", TouchHands, tablet]]) {
    benchTest(`the relay does the heavy work, solved by ${name}`, async (page) => {
        await page.open("exercise=relay");
        const hands = new Hands(page);
        await layAll(hands, relayParts);
        await hands.fit("blade/3", "F2");
        await wireRelay(hands);
        await page.shot(`relay-wired-${name}`);
        await solved(page, hands);
        await hands.choose("rail/key");
        await hands.choose("part/Q1");
        await hands.tapAt(await dial(page));
        await hands.hold("part/S3");
        await page.waitFor((p) => p.live.parts.K1.pulledIn && p.live.parts.M1.speed > 200,
            "K1 pulls in and the motor runs up");
        await page.shot(`relay-drives-${name}`);
        await hands.letGo();
        await page.waitFor((p) => !p.live.parts.K1.pulledIn && p.live.parts.M1.speed < 100,
            "let go, the motor brakes");
    }, options);
}
