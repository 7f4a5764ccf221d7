// The published schema accepts every exercise of the course and refuses what the reader refuses by
// shape. Validator: ajv, JSON Schema 2020-12.
import assert from "node:assert";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const require = createRequire(join(root, "build/deps/node/package.json"));
const Ajv = require("ajv/dist/2020").default;

const json = (path) => JSON.parse(readFileSync(join(root, path), "utf8"));
const ajv = new Ajv({ strict: false, allErrors: false });
ajv.addSchema(json("assets/bench.schema.json"));
const valid = ajv.compile(json("lessons/exercise.schema.json"));
const course = json("lessons/course.json").exercises;

// A sound exercise with one thing changed.
function changed(change, file = "01-headlamp.json") {
    const exercise = json(`lessons/${file}`);
    change(exercise);
    return exercise;
}

test("the course lists every exercise file", () => {
    const files = readdirSync(join(root, "lessons")).filter((name) => /^\d/.test(name));
    assert.deepEqual([...course].sort(), files.sort());
});

for (const name of course) {
    test(`${name} keeps to the schema`, () => {
        assert.ok(valid(json(`lessons/${name}`)), JSON.stringify(valid.errors));
    });
}

test("a text may stand in several languages", () => {
    assert.ok(valid(changed((e) => (e.title = { en: "Lamp", de: "Lampe" }))));
    assert.ok(!valid(changed((e) => (e.title = { de: "Lampe" }))));
});

test("the schema refuses what the reader refuses by shape", () => {
    const wrong = {
        "a missing title": (e) => delete e.title,
        "an unknown member": (e) => (e.colour = "red"),
        "a later version": (e) => (e.version = 2),
        "no caution": (e) => (e.cautions = []),
        "half a mark": (e) => (e.checks[0].marks = 1.5),
        "an unknown look": (e) => (e.checks[0].rows[0].look = "guess"),
        "a slip in a row": (e) => (e.checks[0].rows[5].leest = 1),
        "no bound": (e) => delete e.checks[0].rows[5].least,
        "power between two spots": (e) => (e.checks[0].rows[4].quantity = "power"),
        "one spot": (e) => e.checks[0].rows[0].between.pop(),
        "hours of simulated time": (e) => (e.checks[0].rows[3].for_s = 1e6),
        "a bench that is none": (e) => (e.start.board = 7),
    };
    for (const [what, change] of Object.entries(wrong))
        assert.ok(!valid(changed(change)), what);
});

test("the schema refuses a plan, a fault or a row that is none", () => {
    const wrong = {
        "a plan without cables": (e) => (e.plan.cables = []),
        "a cable without a size": (e) => delete e.plan.cables[0].mm2,
        "three ends": (e) => e.plan.cables[0].ends.push("bare"),
        "an unknown member of the plan": (e) => (e.plan.colour = "red"),
        "no faults": (e) => (e.faults = []),
        "an unknown alteration": (e) => (e.faults[0].alterations[0].alter = "bent"),
        "an end moved nowhere": (e) => delete e.faults[2].alterations[0].to,
        "half a measurement": (e) => (e.checks[2].rows[1].mostMeasurements = 0.5),
        "a slip in a row": (e) => (e.checks[4].rows[3].cabels = ["P-01"]),
    };
    for (const [what, change] of Object.entries(wrong))
        assert.ok(!valid(changed(change, "05-pippin-faults.json")), what);
    const step = (e) => (e.checks[10].rows[0].steps = ["polish"]);
    assert.ok(!valid(changed(step, "04-pippin.json")), "an unknown step");
});
