// What the Plan leaf prints is the plan on A4, not the canvas, and the page is as before afterwards.
import { benchTest, check } from "./harness.mjs";

benchTest("the plan of Pippin prints on sheets of A4 lying", async (page) => {
    await page.open("exercise=pippin");
    // The browser's own dialog cannot be answered; what it would print is.
    await page.page.evaluate(() => { window.print = () => { window.askedToPrint = true; }; });
    await page.tap("leaf/plan");
    await page.waitFor((probe) => probe.rects["paper/print"], "the plan's leaf");
    await page.tap("paper/print");
    await page.page.waitForFunction(() => window.askedToPrint === true);
    const held = await page.page.evaluate(() => {
        const sheets = document.querySelectorAll("#loom-print svg");
        const words = Array.from(sheets[0].querySelectorAll("text"), (each) => each.textContent);
        return { sheets: sheets.length, words, shown: document.querySelector("#loom-print").offsetHeight };
    });
    check.equal(held.shown, 0, "nothing of it on the screen");
    for (let i = 1; i <= 33; i += 1) {
        const label = "P-" + String(i).padStart(2, "0");
        check.that(held.words.includes(label), `${label} is on the first sheet`, held.words);
    }
    const pdf = await page.page.pdf({ preferCSSPageSize: true, printBackground: true });
    const text = pdf.toString("latin1");
    const boxes = text.match(/\/MediaBox \[[^\]]*\]/g) ?? [];
    check.equal(boxes.length, held.sheets, "a page for each sheet");
    const [, , width, height] = boxes[0].match(/[\d.]+/g).map(Number);
    check.near(width, 841.9, 1.5, "A4 lying: 297 mm in points");
    check.near(height, 595.3, 1.5, "210 mm in points");
    check.that(pdf.length > 40000, "more than empty sheets", pdf.length);
    await page.page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
    check.equal(await page.page.evaluate(() => document.querySelectorAll("#loom-print").length), 0,
        "cleared away afterwards");
});
