// A fault hidden in Pippin is looked for with the meter, traced, named and mended, by pointer and by
// finger.
import { benchTest, check } from "./harness.mjs";
import { PointerHands, TouchHands } from "./hands.mjs";

const tablet = { width: 768, height: 1024, touch: true };

async function dial(page) {
    const [x, y, width, height] = await page.rectOf("part/Q1");
    return [x + width * 0.5, y + height * 0.4];
}

// The wide screen's card or the tablet's stays until Escape; a finger taps its cross.
async function closeCard(page, hands) {
    if ((await page.probe("rects")).rects["card/close"]) await hands.choose("card/close");
}

async function switchOn(page, hands) {
    await hands.choose("rail/key");
    await hands.choose("part/Q1");
    await closeCard(page, hands);
    await hands.tapAt(await dial(page));
    await closeCard(page, hands);
    await page.waitFor((p) => p.live.supply.live, "the isolator is on");
    await hands.choose("part/S1");
    await closeCard(page, hands);
}

// Out of the way of what is measured, by its upper edge.
async function putBeside(page, hands) {
    const [x, y, width, height] = await page.rectOf("meter/body");
    const viewport = page.page.viewportSize();
    const from = [x + width * 0.2, y + height * 0.04];
    const to = [viewport.width * 0.66, from[1]];
    await (hands instanceof TouchHands ? page.touchDrag(from, to) : page.drag(from, to));
    const wanted = x + to[0] - from[0];
    await page.waitFor((p, left) => Math.abs(p.rects["meter/body"][0] - left) < 12, "the meter lies there", wanted);
}

async function reads(page, hands, red, black) {
    const { measurements } = await page.probe("measurements");
    const drag = hands instanceof TouchHands ? "touchDrag" : "drag";
    await page[drag]("meter/red", `terminal/${red}`);
    await page[drag]("meter/black", `terminal/${black}`);
    // It counts when both probes were held there for a moment.
    const touching = (p) => p.bench.meter.red.at && p.bench.meter.black.at;
    await page.waitFor(touching, `the probes are at ${red} and ${black}`);
    await page.waitFor((p, before) => p.measurements === before + 1, "the measurement counts", measurements);
}

for (const [name, Hands, options] of [["pointer", PointerHands, {}], ["finger", TouchHands, tablet]]) {
    benchTest(`a hidden fault is found with the meter, named and mended, by ${name}`, async (page) => {
        await page.open("exercise=pippin-faults&seed=0");
        const hands = new Hands(page);
        await switchOn(page, hands);
        await hands.choose("rail/meter");
        await hands.choose("meter/range/volts");
        await putBeside(page, hands);
        await reads(page, hands, "X1/1 upper", "X1/10 upper");
        await page.shot(`meter-supply-${name}`);
        await reads(page, hands, "X1/2 upper", "X1/10 upper");
        await page.shot(`meter-control-${name}`);
        await hands.choose("meter/hang");
        await hands.choose("part/F2");
        await hands.choose("card/fault");
        await closeCard(page, hands);
        await hands.fit("blade/7.5", "F2");
        await page.waitFor((p) => p.live.parts.S1.lamp.brightness > 0.5, "the live lamp is lit");
        const { rects } = await page.probe("rects");
        await hands.choose(rects["paper/check"] ? "paper/check" : "strip/check");
        const { verdict } = await page.waitFor((p) => p.verdict && !p.verdict.stale, "a verdict");
        check.equal(verdict.checks.filter((row) => !row.passed).map((row) => row.say), [], "nothing left to say");
        await page.shot(`fault-mended-${name}`);
    }, options);
}
