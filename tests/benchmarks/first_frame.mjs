// From the start of navigation to the first frame drawn, in a fresh profile each time, the server
// warm; the middle of five. Drawing is by software here, so a real screen is faster.
import { Browser, withSite } from "../web/harness.mjs";

async function once() {
    const browser = new Browser({});
    try {
        const bench = await browser.launch();
        await bench.page.goto(bench.siteAddress());
        const mark = await bench.page.waitForFunction(() =>
            performance.getEntriesByName("loom-first-frame")[0]?.startTime);
        return await mark.jsonValue();
    } finally {
        await browser.close();
    }
}

export async function measure() {
    const times = await withSite(async () => {
        const all = [];
        for (let i = 0; i < 5; ++i) all.push(await once());
        return all.sort((a, b) => a - b);
    });
    return [{ name: "first_frame", value: Math.round(times[2]), unit: "ms", against: 1500 }];
}
