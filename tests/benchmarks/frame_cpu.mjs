// Our own work in a frame (input, model, screen; without the graphics interface) with every part and
// cable of Pippin on the bench and driving, over the last 60 frames; and how far simulated time fell
// behind real time meanwhile, as a share of it.
import { Browser, withSite } from "../web/harness.mjs";

const framesKept = 60;

async function tapControl(page, ref, [x_share, y_share] = [0.5, 0.4]) {
    const [x, y, width, height] = await page.rectOf(`part/${ref}`);
    await page.tap([x + width * x_share, y + height * y_share]);
    await page.key("Escape");
}

async function drive(page) {
    await page.tap("rail/key");
    await page.tap("part/Q1");
    await tapControl(page, "Q1");
    await tapControl(page, "S1");
    await tapControl(page, "S2", [0.15, 0.4]);
    const [x, y, width, height] = await page.rectOf("part/S3");
    await page.press([x + width / 2, y + height * 0.4]);
    await page.waitFor((p) => p.live.parts.M1.speed > 200, "the motor runs");
}

async function whileDriving(page) {
    const before = await page.probe("frames", "behind_s");
    const begin = Date.now();
    await page.waitFor((p, frames) => p.frames > frames, "60 more frames",
        before.frames + framesKept, 120000);
    const after = await page.probe("cpuFrame_ms", "behind_s");
    return { cpu_ms: after.cpuFrame_ms, behind: ((after.behind_s - before.behind_s) * 1000) / (Date.now() - begin) };
}

export async function measure() {
    const { cpu_ms, behind } = await withSite(async () => {
        const browser = new Browser({});
        try {
            const page = await browser.launch();
            await page.open("bench=pippin");
            await drive(page);
            return await whileDriving(page);
        } finally {
            await browser.close();
        }
    });
    return [
        { name: "frame_cpu", value: Number(cpu_ms.toFixed(3)), unit: "ms", against: 4 },
        { name: "time_behind", value: Number(behind.toFixed(4)), unit: "share", against: 1 },
    ];
}
