// SPDX-License-Identifier: MIT
// The published schema of a bench says of each kind of part what its row in the catalogue says.
#include "sample_benches.h"

#include <algorithm>
#include <doctest/doctest.h>
#include <fstream>
#include <nlohmann/json.hpp>

namespace loom::bench {
namespace {

using nlohmann::json;

json definitions() {
    std::ifstream file(LOOM_SOURCE_DIR "/assets/bench.schema.json");
    return json::parse(file)["$defs"];
}

bool allows(const json& schema, const json& value);

bool allowsMembers(const json& properties, const json& value) {
    for (const auto& [name, each] : properties.items())
        if (value.contains(name) && !allows(each, value[name])) return false;
    return true;
}

// As much of JSON Schema as the definition of a part takes; a reference allows everything.
bool allows(const json& schema, const json& value) {
    if (schema.is_boolean()) return schema.get<bool>();
    const auto among = [&](const char* list) {
        return std::any_of(schema[list].begin(), schema[list].end(), [&](const json& each) {
            return std::string(list) == "enum" ? each == value : allows(each, value);
        });
    };
    if (schema.contains("const") && value != schema["const"]) return false;
    if (schema.contains("enum") && !among("enum")) return false;
    if (schema.contains("anyOf") && !among("anyOf")) return false;
    if (schema.contains("not") && allows(schema["not"], value)) return false;
    if (schema.contains("minimum") && value.is_number() && value < schema["minimum"]) return false;
    if (schema.contains("maximum") && value.is_number() && value > schema["maximum"]) return false;
    if (schema.contains("properties") && !allowsMembers(schema["properties"], value)) return false;
    if (schema.contains("if") && allows(schema["if"], value) && !allows(schema["then"], value))
        return false;
    if (!schema.contains("allOf")) return true;
    const json& all = schema["allOf"];
    return std::all_of(
        all.begin(), all.end(), [&](const json& each) { return allows(each, value); });
}

bool takes(const PartSpec& row, double rating) {
    if (!row.rating) return rating == 0.0;
    if (row.rating->mayBeZero && rating == 0.0) return true;
    return rating >= row.rating->least && rating <= row.rating->most;
}

} // namespace

TEST_CASE("the schema lists the kinds of the catalogue, in its order") {
    json words = json::array();
    for (const PartKind kind : allKinds())
        words.push_back(spec(kind).word);
    CHECK(definitions()["partKind"]["enum"] == words);
}

TEST_CASE("the schema allows each kind the positions, conditions and ratings of its row") {
    const json all = definitions(), part = all["part"], slot = all["partSlot"];
    const json positions = part["properties"]["position"]["enum"];
    const json conditions = part["properties"]["condition"]["enum"];
    REQUIRE(conditions == json({"sound", "open", "welded"}));
    for (const PartKind kind : allKinds()) {
        const PartSpec& row = spec(kind);
        CAPTURE(std::string(row.word));
        const json plain = {{"kind", row.word}};
        const auto allowed = [&](const json& schema, const char* member, const json& value) {
            json given = plain;
            given[member] = value;
            return allows(schema, given);
        };
        for (const char* word : row.positions)
            CHECK(allowed(part, "position", word));
        CHECK(std::count_if(positions.begin(), positions.end(), [&](const json& word) {
                  return allowed(part, "position", word);
              }) == static_cast<int>(row.positions.size()));
        for (std::size_t i = 0; i < conditions.size(); ++i)
            CHECK(allowed(part, "condition", conditions[i]) ==
                  canBe(kind, static_cast<Condition>(i)));
        for (const double rating : {0.0, 0.05, 0.1, 5.9, 6.0, 48.0, 48.1, 500.0, 501.0, 1e9, 2e9}) {
            CAPTURE(rating);
            CHECK(allowed(part, "rating", rating) == takes(row, rating));
            CHECK(allowed(slot, "rating", rating) == takes(row, rating));
        }
        CHECK(allowed(part, "obstructed", true) == isA(kind, PartClass::Motor));
    }
}

} // namespace loom::bench
