// A bench is handed to somebody else: the attempt as a file, the bench as it stands as a link.
import { benchTest, check } from "./harness.mjs";
import { PointerHands } from "./hands.mjs";

const refs = (probe) => probe.bench.parts.map((part) => part.ref).sort();

async function twoParts(page) {
    await page.open("exercise=headlamp");
    const hands = new PointerHands(page);
    await hands.lay("B1", [0.2, 0.5]);
    await hands.lay("E1", [0.7, 0.3]);
    await page.tap("leaf/course");
    await page.wheel([165, 600], 1000); // the last of the buttons are further down
}

benchTest("an attempt is handed over as a file and lies beside the receiver's own", async (page) => {
    await twoParts(page);
    const file = await page.downloadOf(() => page.tap("paper/hand-over"));
    check.equal(file.name, "headlamp.attempt.json", "the file's name");
    await page.tap("paper/restart");
    await page.tap("paper/restart/yes");
    await page.waitFor((p) => p.bench.parts.length === 0, "the receiver has begun anew");
    await page.page.setInputFiles("#bench-file", file.path);
    await page.waitFor((p) => p.document === "handed:headlamp", "the other's bench is open");
    const probe = await page.probe("bench", "exercise");
    check.equal(refs(probe), ["B1", "E1"], "what lies on it");
    check.equal(probe.exercise, "headlamp", "its exercise");
    await page.key("Control+z");
    await page.waitFor((p) => p.bench.parts.length === 1, "what was done on it can be undone");
});

benchTest("a bench is handed over as a link; a damaged one is refused", async (page, browser) => {
    await browser.context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await twoParts(page);
    await page.tap("paper/link");
    await page.waitFor((p) => p.notice.includes("clipboard"), "it says where the link is");
    const link = await page.page.evaluate(() => navigator.clipboard.readText());
    check.that(link.includes("#bench=") && link.length <= 1800, "a link that survives", link.length);
    const code = link.split("#bench=")[1];
    await page.page.goto("about:blank");
    await page.page.goto(`${page.siteAddress()}?probe&exercise=relay#bench=${code}`);
    await page.page.waitForFunction(() => typeof window.loomProbe === "function");
    await page.waitFor((p) => p.document === "handed:headlamp", "the link's bench is open");
    check.equal(refs(await page.probe("bench")), ["B1", "E1"], "what lies on it");
    await page.waitFor((p) => p.rects["tray/S4"] !== undefined, "its tray is the exercise's");
    await page.page.goto("about:blank");
    await page.page.goto(`${page.siteAddress()}?probe&exercise=relay#bench=${code.slice(0, 40)}`);
    await page.page.waitForFunction(() => typeof window.loomProbe === "function");
    await page.waitFor((p) => p.notice.includes("link"), "a damaged link is refused in words");
    check.equal((await page.probe("document")).document, "relay", "what was asked for is open");
});
