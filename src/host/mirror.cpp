// SPDX-License-Identifier: MIT
#include "host/mirror.h"

#include "host/page.h"
#include "screen/sentences.h"

#include <nlohmann/json.hpp>

namespace loom::host {

namespace {

const char* zoneKey(screen::Zone zone) {
    switch (zone) {
    case screen::Zone::Header:
        return "zone/header";
    case screen::Zone::Paper:
        return "zone/paper";
    case screen::Zone::Board:
        return "zone/board";
    case screen::Zone::Events:
        return "zone/events";
    case screen::Zone::Tray:
        return "zone/tray";
    case screen::Zone::Rail:
        return "zone/rail";
    case screen::Zone::Card:
        return "zone/card";
    case screen::Zone::Sheet:
        return "zone/sheet";
    }
    return "";
}

std::string asJson(const screen::Items& items) {
    nlohmann::json rows = nlohmann::json::array();
    for (const screen::Item& item : items.all())
        rows.push_back({screen::words(zoneKey(item.zone)), item.name, item.label});
    return rows.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

} // namespace

void Mirror::describeCanvas() {
    loom_mirror_describe(screen::words("page/bench").c_str(), screen::words("page/keys").c_str());
}

void Mirror::show(const screen::Items& items,
                  std::string_view sentence,
                  double now_s,
                  bool resting) {
    if (!resting && now_s - last_s < 1.0) return;
    last_s = now_s;
    std::string rows = asJson(items);
    if (rows != shown) {
        loom_mirror_show(rows.c_str());
        shown = std::move(rows);
    }
    if (sentence != said) {
        said = sentence;
        loom_mirror_say(said.c_str());
    }
}

} // namespace loom::host
